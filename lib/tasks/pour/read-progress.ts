import 'server-only'
import { findDiskState, type DiskState } from '@/lib/db/engine/disk'
import type { findProgress as find } from '@/lib/db/progress'
import { findProgress } from '@/lib/db/progress'
import { seatState, type SeatStanding } from '@/lib/panel/seat-progress'
import { findUnpoured } from '@/lib/panel/unpoured'
import { findTooMuch, type TooMuch } from '@/lib/panel/who-may-taste'
import type { Actor, World } from '../world'

type ProgressRecord = NonNullable<Awaited<ReturnType<typeof find>>>

/** One seat as everybody who waits may see it: how far, never what. */
export interface SeatProgress {
  readonly number: number
  readonly name: string | null
  /** cups with at least one score */
  readonly scored: number
  readonly skipped: number
  readonly poured: number
  /** scored cups that nobody ticked as poured and no phone confirmed; null where nobody ticks */
  readonly unpoured: number | null
  readonly cups: number
  readonly state: SeatStanding
  readonly onPaper: boolean
  /** when somebody went on with it on another phone, by its card */
  readonly movedAt: Date | null
  /** its taster knows too much: no score is taken from it any more */
  readonly barred: TooMuch | null
  /** why the house has set it aside; null for a seat that it has not */
  readonly aside: string | null
  readonly added: boolean
  /** the seat this taster probably sat at before */
  readonly repeatOf: number | null
}

export interface Progress {
  /** null while there is room on the disk */
  readonly disk: DiskState | null
  readonly stage: string
  readonly title: string
  readonly cups: number
  readonly seats: readonly SeatProgress[]
}

/** @returns null for a panel that is not there or not yet open */
export async function readProgress(world: World, actor: Actor, panelId: string): Promise<Progress | null> {
  const [found, disk] = await Promise.all([findProgress(world.db, actor.cafeId, panelId), findDiskState(world.db)])
  if (!found) return null
  return { disk, stage: found.stage, title: found.title, cups: found.cupCount, seats: seatProgress(found) }
}

export function seatProgress(found: ProgressRecord): readonly SeatProgress[] {
  const unpoured = findUnpoured(found.seats.flatMap(({ servings }) => servings))
  const marked = unpoured && new Set(unpoured)
  const numberOf = new Map(found.seats.map((seat) => [seat.id, seat.number]))
  return found.seats.map((seat) => {
    const skipped = seat.servings.filter((serving) => serving.skippedAt !== null).length
    const settled = seat.servings.filter((serving) => serving.lockedAt !== null || serving.skippedAt !== null).length
    return {
      number: seat.number,
      name: seat.taster?.name ?? null,
      scored: seat.servings.filter((serving) => serving.skippedAt === null && serving.hasScore).length,
      skipped,
      poured: seat.servings.filter((serving) => serving.pouredAt !== null).length,
      unpoured: marked && seat.servings.filter((serving) => marked.has(serving)).length,
      cups: seat.servings.length,
      state: seatState({
        taken: seat.takenAt !== null,
        left: seat.leftAt !== null,
        barred: seat.barredAt !== null,
        aside: seat.setAsideAt !== null,
        settled,
        cups: seat.servings.length,
      }),
      onPaper: seat.onPaper,
      movedAt: seat.movedAt ?? movedBefore(seat),
      barred: findTooMuch(seat),
      aside: seat.setAsideAt === null ? null : (seat.setAsideWhy ?? ''),
      added: seat.addedAt !== null,
      repeatOf: (seat.repeatOfSeatId && numberOf.get(seat.repeatOfSeatId)) || null,
    }
  })
}

/** Moves of before their moment was kept: since then another browser has the seat. */
function movedBefore({ takenAt, browserSince }: ProgressRecord['seats'][number]): Date | null {
  return takenAt !== null && browserSince !== null && browserSince > takenAt ? browserSince : null
}
