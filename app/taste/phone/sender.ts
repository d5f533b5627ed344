import type { Outbox } from './outbox'
import type { Parcel } from './parcel'

/** How a sending ended. Only `taken` means that the café's computer has the answer. */
export type Outcome =
  | { readonly kind: 'taken'; readonly reply: Readonly<Record<string, unknown>> }
  | { readonly kind: 'refused'; readonly reason: string; readonly words: string }
  | { readonly kind: 'unreachable' }

/** What is true of this seat's answers right now. */
export type SaveState = { readonly kind: 'saved' | 'sending' | 'waiting'; readonly count: number }

/** After these nothing of this turn will ever be taken: stop, and keep what waits where it is. */
const FINAL: ReadonlySet<string> = new Set([
  'no-seat',
  'seat-moved',
  'phone-passed-on',
  'another-sitting',
  'on-paper',
  'knows-too-much',
  'set-aside',
])

const FIRST_PAUSE_MS = 1000
const LONGEST_PAUSE_MS = 15_000

export type SenderParts = {
  readonly outbox: Outbox
  readonly sitting: string
  post(parcel: Parcel): Promise<Outcome>
  /** runs `then` after a pause; gives what cancels it */
  after(ms: number, then: () => void): () => void
  onState(state: SaveState): void
  onOutcome(parcel: Parcel, outcome: Outcome): void
}

export interface Sender {
  /** Sends what waits, now: after a tap, when the line is back, when the phone wakes. */
  kick(): Promise<void>
}

/**
 * Sends what waits, one by one and in order, and forgets a message only when it was taken or refused. A lost answer is
 * sent again under the same key, which the café's computer knows: it counts once.
 */
export function createSender({ outbox, sitting, post, after, onState, onOutcome }: SenderParts): Sender {
  let running: Promise<void> | null = null
  let again = false
  let over = false
  let pause = FIRST_PAUSE_MS
  let cancel = () => {}

  async function run(): Promise<void> {
    cancel()
    while (!over) {
      again = false
      const waiting = await outbox.waiting(sitting)
      const parcel = waiting[0]
      if (!parcel) return onState({ kind: 'saved', count: 0 })
      onState({ kind: pause === FIRST_PAUSE_MS ? 'sending' : 'waiting', count: waiting.length })
      const outcome = await post(parcel)
      if (outcome.kind === 'unreachable') {
        onState({ kind: 'waiting', count: (await outbox.waiting(sitting)).length })
        cancel = after(pause, () => void kick())
        pause = Math.min(pause * 2, LONGEST_PAUSE_MS)
        return
      }
      pause = FIRST_PAUSE_MS
      if (outcome.kind === 'refused' && FINAL.has(outcome.reason)) over = true
      else await outbox.remove(parcel.id)
      onOutcome(parcel, outcome)
    }
  }

  function kick(): Promise<void> {
    again = true
    running ??= run().finally(() => {
      running = null
      if (again && !over) void kick() // asked for after the last look into the outbox
    })
    return running
  }

  return { kick }
}
