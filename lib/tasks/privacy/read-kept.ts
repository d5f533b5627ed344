import 'server-only'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findKeptSeat, findSeatedTasters, type SeatedTaster } from '@/lib/db/privacy'
import { findPanel } from '@/lib/db/panels'
import type { Actor, World } from '../world'
import { sayRank } from '@/lib/panel/kinds/rank'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'
import { questionOf, sayAnswer } from '@/lib/panel/question'
import { findOwnSeat, mayReadAnswers, type OwnSeat } from './forget-taster'

type KeptSeatRow = NonNullable<Awaited<ReturnType<typeof findKeptSeat>>>

/** What was answered to one cup, by its code: nothing says which trial was in it. */
export interface KeptCup {
  readonly code: string
  readonly answers: readonly { readonly question: string; readonly said: string; readonly at: Date }[]
  readonly comment: string | null
  readonly skip: string | null
  /** replaced by what was typed from paper, or come after closing: kept apart, never counted */
  readonly apart: readonly { readonly question: string; readonly said: string }[]
}

/** All that is kept of one taster. */
export interface Kept {
  readonly panelTitle: string
  readonly seat: number
  readonly name: string | null
  readonly forgottenAt: Date | null
  readonly agreedAt: Date
  readonly onPaper: boolean
  /** a mark of the phone that holds the seat */
  readonly hasBrowser: boolean
  /** signed in as a member of the team when they sat down */
  readonly isMember: boolean
  /** days until the name goes by itself; 0: when asked; null: the café has not chosen */
  readonly nameDays: number | null
  /** the café's time zone */
  readonly zone: string
  /** in the order of tasting; null: not shown to whoever asks, as long as the panel is open */
  readonly cups: readonly KeptCup[] | null
}

/** For the taster: by the phone that took the seat everything, else what was answered only once the panel is over. */
export async function readKeptOfMe(world: World, own: OwnSeat): Promise<Kept | null> {
  return inTransaction(world, async (tx) => {
    const seat = await findOwnSeat(tx, own)
    return seat && keptOf(seat, own)
  })
}

/** For whoever runs the panel, to hand it over: before closing nobody reads a score, this way neither. */
export async function readKeptOfSeat(
  world: World,
  actor: Actor,
  panelId: string,
  number: number,
): Promise<Kept | null> {
  const seat = await findKeptSeat(world.db, { cafeId: actor.cafeId, panelId, number })
  return seat && keptOf(seat, null)
}

export interface PanelTasters {
  readonly title: string
  readonly tasters: readonly SeatedTaster[]
}

export async function readTasters(world: World, actor: Actor, panelId: string): Promise<PanelTasters | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  return panel && { title: panel.title, tasters: await findSeatedTasters(world.db, actor.cafeId, panelId) }
}

function keptOf(seat: KeptSeatRow, own: OwnSeat | null): Kept | null {
  const { taster, panel } = seat
  if (!taster) return null
  return {
    panelTitle: panel.publicTitle,
    seat: seat.number,
    name: taster.name,
    forgottenAt: taster.forgottenAt,
    agreedAt: taster.consentAt,
    onPaper: seat.onPaper,
    hasBrowser: seat.browserHash !== null,
    isMember: seat.memberId !== null,
    nameDays: panel.cafe.nameDays,
    zone: panel.cafe.timeZone,
    cups: mayReadAnswers(seat, own) ? seat.servings.map((serving) => keptCup(serving, panel.attributes)) : null,
  }
}

function keptCup(serving: KeptSeatRow['servings'][number], attributes: KeptSeatRow['panel']['attributes']): KeptCup {
  const numbered = (rows: readonly { readonly attributeId: string | null; readonly value: number | null }[]) =>
    rows.flatMap(({ attributeId, value }) => {
      const asked = attributes.find((one) => one.id === attributeId)
      if (value === null) return []
      return [{ question: asked?.name ?? '', said: asked ? sayAnswer(questionOf(asked), value) : String(value) }]
    })
  const ofSet = ({ attributeId, answer }: { readonly attributeId: string; readonly answer: string }) => {
    const asked = attributes.find((one) => one.id === attributeId)
    const places = readSetAnswer(answer) ?? []
    const otherwise = asked?.kind === 'odd' ? 'not this one' : 'the other'
    const said =
      asked?.kind === 'rank' ? sayRank(serving.position, places) : sayPlace(serving.position, places, otherwise)
    return { question: asked?.name ?? '', said }
  }
  return {
    code: serving.code,
    answers: [
      ...attributes.flatMap((asked) =>
        serving.scores
          .filter((score) => score.attributeId === asked.id)
          .map(({ value, at }) => ({ question: asked.name, said: sayAnswer(questionOf(asked), value), at })),
      ),
      ...(serving.set?.answers ?? []).map((one) => ({ ...ofSet(one), at: one.at })),
    ],
    comment: serving.comment,
    skip: serving.skipReason,
    apart: [...numbered([...serving.replaced, ...serving.late]), ...(serving.set?.uncounted ?? []).map(ofSet)],
  }
}

/** An answer about cups together, as it is of one of them. */
function sayPlace(position: number, chosen: readonly number[], otherwise: string): string {
  if (chosen.length === 0) return 'no preference'
  return chosen.includes(position) ? 'this one' : otherwise
}
