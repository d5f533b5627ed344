import 'server-only'
import { findPaperSeat } from '@/lib/db/paper'
import { findPanel } from '@/lib/db/panels'
import { LIKING_WORDS } from '@/lib/panel/liking'
import type { Actor, World } from './world'

export interface PaperSeat {
  readonly number: number
  readonly name: string | null
  readonly onPaper: boolean
  readonly taken: boolean
  readonly attributes: readonly string[]
  /** words of the scale; the first stands for 1 */
  readonly scale: readonly string[]
  /** by code, never in the order of tasting */
  readonly cups: readonly {
    readonly code: string
    readonly answers: readonly (number | null)[]
    readonly skip: string | null
    readonly comment: string | null
  }[]
}

/** What is to be typed in for one seat, and what is known already. */
export async function readPaperSeat(
  world: World,
  actor: Actor,
  panelId: string,
  number: number,
): Promise<PaperSeat | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  const seat = await findPaperSeat(world.db, actor.cafeId, panelId, number)
  if (panel?.stage !== 'open' || !seat) return null
  return {
    number: seat.number,
    name: seat.taster?.name ?? null,
    onPaper: seat.onPaper,
    taken: seat.takenAt !== null,
    attributes: panel.attributes.map(({ name }) => name),
    scale: LIKING_WORDS,
    cups: seat.onPaper
      ? seat.servings.map((serving) => ({
          code: serving.code,
          answers: panel.attributes.map(
            ({ id }) => serving.scores.find((score) => score.attributeId === id)?.value ?? null,
          ),
          skip: serving.skipReason,
          comment: serving.comment,
        }))
      : [],
  }
}
