import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findOpenings } from '@/lib/db/trays'
import type { BlindAsk } from '@/lib/panel/blind'
import { askOf } from '@/lib/panel/kinds/kinds'
import { LIKING_WORDS } from '@/lib/panel/liking'
import { findPaperSheet, type SheetCup } from './paper-sheet'
import type { Actor, World } from '../world'

export interface PaperSeat {
  readonly number: number
  readonly name: string | null
  readonly isForgotten: boolean
  readonly onPaper: boolean
  readonly barred: boolean
  readonly aside: boolean
  readonly taken: boolean
  /** who types has opened a list of this panel, so that a sheet tells them more than it should before closing */
  readonly typistOpenedList: boolean
  readonly attributes: readonly string[]
  /** how each of them is asked, words in the order of the plan */
  readonly asks: readonly BlindAsk[]
  /** words of the scale; the first stands for 1 */
  readonly scale: readonly string[]
  /** by code, never in the order of tasting; what paper said and nothing that a phone said */
  readonly cups: readonly {
    readonly code: string
    readonly phone: SheetCup['phone']
    readonly answers: readonly (number | null)[]
    readonly skip: string | null
    readonly comment: string | null
  }[]
  /** goes with the form and comes back: a sheet typed in meanwhile is not undone by an older page */
  readonly was: string
}

/** What is to be typed in for one seat, and what was typed in already. */
export async function readPaperSeat(
  world: World,
  actor: Actor,
  panelId: string,
  number: number,
): Promise<PaperSeat | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  const sheet = await findPaperSheet(world.db, actor.cafeId, panelId, number)
  if (panel?.stage !== 'open' || !sheet) return null
  const openings = await findOpenings(world.db, actor.cafeId, panelId)
  return {
    number: sheet.number,
    name: sheet.name,
    isForgotten: sheet.isForgotten,
    onPaper: sheet.onPaper,
    barred: sheet.barred,
    aside: sheet.aside,
    taken: sheet.taken,
    typistOpenedList: openings.some(({ userId }) => userId === actor.userId),
    attributes: panel.attributes.map(({ name }) => name),
    asks: panel.attributes.map((one) => askOf(one, (words) => words)),
    scale: LIKING_WORDS,
    cups: sheet.onPaper
      ? sheet.cups.map(({ code, phone, scores, skip, comment }) => ({
          code,
          phone,
          answers: panel.attributes.map(({ id }) => scores.find((one) => one.attributeId === id)?.value ?? null),
          skip,
          comment,
        }))
      : [],
    was: sheet.mark,
  }
}
