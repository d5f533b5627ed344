import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findOpenings } from '@/lib/db/trays'
import type { BlindAsk } from '@/lib/panel/blind'
import { askOf, roomOfQuestion } from '@/lib/panel/kinds/kinds'
import { LIKING_WORDS } from '@/lib/panel/liking'
import { findPaperSheet, type SheetCup } from './paper-sheet'
import type { SheetSet } from './paper-sets'
import type { QuestionColumns } from '@/lib/panel/question'
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
  /** cups that are answered together, by code; none where each is answered by itself */
  readonly sets: readonly {
    readonly number: number
    readonly codes: readonly string[]
    /** codes of each answer that a sheet may give */
    readonly offers: readonly (readonly string[])[]
    /** answered on the phone */
    readonly phone: boolean
    /** codes as the answer has them; empty: none of them; null: left blank */
    readonly answer: readonly string[] | null
    readonly skip: string | null
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
    sets: sheet.onPaper ? sheet.sets.map((set) => setOf(set, panel.attributes[0])) : [],
    cups:
      sheet.onPaper && sheet.sets.length === 0
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

function setOf(
  { number, cups, phone, answers, skip }: SheetSet,
  asked: QuestionColumns | undefined,
): PaperSeat['sets'][number] {
  const codeAt = (at: number) => cups.find(({ position }) => position === at)?.code ?? ''
  const answer = answers[0]?.answer.map(codeAt) ?? null
  return { number, codes: cups.map(({ code }) => code), offers: offersOf(cups, asked), phone, answer, skip }
}

/**
 * What a sheet may say of a set: one of its codes; of a tetrad the pair that the lowest code is in, for the other pair says the
 * same. A reference is no answer.
 */
function offersOf(cups: SheetSet['cups'], asked: QuestionColumns | undefined): readonly string[][] {
  const room = asked && roomOfQuestion(asked)
  const [lowest, ...others] = cups
  const inOrder = (some: SheetSet['cups']) => some.toSorted((a, b) => a.position - b.position)
  const some = [
    ...cups.map((one) => [one]),
    ...(asked?.kind === 'odd' && lowest ? others.map((one) => inOrder([lowest, one])) : []),
  ]
  const positions = cups.map(({ position }) => position)
  return some
    .filter((chosen) => {
      const places = chosen.map(({ position }) => position)
      return asked && room?.isAnswer(asked, positions, places)
    })
    .map((chosen) => chosen.map(({ code }) => code))
}
