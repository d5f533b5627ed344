import type { BlindSet, SeatState } from '@/lib/panel/blind'

/** One answer about a set, as it is tapped. */
export interface SetField {
  readonly field: readonly Node[]
  /** what to say when "Next" is pressed too early; null: it may be pressed */
  missing(): string | null
}

export interface SetAsked {
  readonly state: SeatState
  readonly set: BlindSet
  /** as it stands; null: not answered yet */
  readonly chosen: readonly number[] | null
  choose(answer: readonly number[]): void
  /** it is not whole any more: "Next" waits again */
  reopen(): void
}
