import { askForPhone, type BlindAsk } from '../blind'
import type { Pourings } from '../portions'
import { questionOf, readObject, type QuestionColumns } from '../question'
import { choice, type ChoiceDesign } from './choice'
import { difference, type DifferenceDesign } from './difference'
import { rank, type RankDesign } from './rank'
import type { SetKindRoom, SetQuestionRoom } from './set-kind'

/** What is asked of tasters: how each cup is liked, or something about a set of servings. */
export const panelKinds = ['liking', 'choice', 'rank', 'difference'] as const
export type PanelKind = (typeof panelKinds)[number]
export type SetKind = Exclude<PanelKind, 'liking'>

/** What a plan of a kind that asks about sets fixes beside cups and seats. */
export type SetDesign = ChoiceDesign | RankDesign | DifferenceDesign

type Rooms = { readonly [Kind in SetKind]: SetKindRoom<Extract<SetDesign, { readonly kind: Kind }>> }

/** The table of kinds: a kind without its room does not compile. Liking of each cup is where it always was. */
export const setKinds: Rooms = { choice, rank, difference }

/** The room of a design, for whoever has the one that goes with it. */
export function roomOfDesign({ kind }: SetDesign): SetKindRoom<SetDesign> {
  return setKinds[kind]
}

/** A kind as the database keeps it. @returns null for liking of each cup, and for a word that is no kind of ours */
export function findSetKind(word: string): SetKind | null {
  const known = panelKinds.find((kind) => kind === word)
  return known === undefined || known === 'liking' ? null : known
}

/** The design of a panel that asks about sets; undefined for one that asks of each cup. */
export function designOf({
  kind,
  design,
}: {
  readonly kind: string
  readonly design: string | null
}): SetDesign | undefined {
  const known = findSetKind(kind)
  return known === null ? undefined : setKinds[known].readDesign(readObject(design))
}

/** Cups poured more than once at a seat; null where none is. */
export function pouringsOf(panel: { readonly kind: string; readonly design: string | null }): Pourings | null {
  const asks = designOf(panel)
  return (asks && roomOfDesign(asks).trays?.pourings(asks)) ?? null
}

/** The room whose question this is. @returns null for a question about one serving */
export function roomOfQuestion({ kind }: Pick<QuestionColumns, 'kind'>): SetQuestionRoom | null {
  return Object.values(setKinds).find(({ asks }) => asks === kind) ?? null
}

/** How a question is asked at a seat, whatever it is about. @param shuffle  an order of the seat's own */
export function askOf(asked: QuestionColumns, shuffle: <One>(of: readonly One[]) => readonly One[]): BlindAsk {
  return roomOfQuestion(asked)?.ask(asked) ?? askForPhone(questionOf(asked), shuffle)
}
