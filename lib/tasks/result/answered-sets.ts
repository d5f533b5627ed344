import 'server-only'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'
import { likeName } from '@/lib/base/like-name'
import type { ClosedServing } from './closed-servings'
import type { AnsweredServing, ResultCup } from './panel-answers'

/** What one seat said about one set, in letters of the result. */
export interface AnsweredSet {
  readonly seat: number
  readonly number: number
  /** letters in the order of tasting */
  readonly served: readonly string[]
  /** as the answer has them; empty: none of them; null: no answer that counts */
  readonly letters: readonly string[] | null
  readonly source: string
  readonly at: Date | string | null
  readonly skipReason: string | null
}

/** The sets of a panel with what was said about each: one row a set, of seats that were taken. */
export function answeredSets(servings: readonly AnsweredServing[], cups: readonly ResultCup[]): AnsweredSet[] {
  const letterOf = new Map(cups.map(({ trialId, letter }) => [trialId, letter]))
  const groups = new Map<string, AnsweredServing[]>()
  for (const serving of servings) {
    if (!serving.set || serving.seat.takenAt === null) continue
    const key = `${serving.seat.number} ${serving.set.number}`
    groups.set(key, [...(groups.get(key) ?? []), serving])
  }
  return [...groups.values()].map((group) => {
    const inOrder = group.toSorted((a, b) => a.position - b.position)
    const [first] = inOrder
    const given = first?.skippedAt ? undefined : first?.set?.answers[0]
    const answer = given ? readSetAnswer(given.answer) : null
    const letterAt = (at: number) =>
      letterOf.get(inOrder.find(({ position }) => position === at)?.cup.trialId ?? '') ?? ''
    return {
      seat: first?.seat.number ?? 0,
      number: first?.set?.number ?? 0,
      served: inOrder.map(({ cup }) => letterOf.get(cup.trialId) ?? ''),
      letters: answer && answer.map(letterAt),
      source: given?.source ?? '',
      at: given?.at ?? null,
      skipReason: first?.skippedAt ? (first.skipReason ?? '') : null,
    }
  })
}

/** Sets whose answer is in the numbers. */
export function countedSets(sets: readonly AnsweredSet[], later: readonly number[]): AnsweredSet[] {
  return sets.filter(({ seat, letters }) => letters !== null && !later.includes(seat))
}

/**
 * Which seats' answers are a person's second or later one?
 *
 *     a seat flagged as a likely repeat, whose name is like that of a seat that was taken before it and answered too
 *
 * A phone that was passed on is no sign of it: whoever takes it over has a name of their own. Nor is it whose seat the flag
 * points at: of a phone that several had, that is the first of them.
 *
 * Checked  test/integration/panel/choice-result.test.ts
 */
export function laterAnswers(servings: readonly AnsweredServing[]): number[] {
  const answered = servings.filter(({ set, skippedAt }) => set && set.answers.length > 0 && !skippedAt)
  const seats = [...new Map(answered.map(({ seat }) => [seat.number, seat])).values()]
  const inOrder = seats.toSorted((a, b) => momentOf(a) - momentOf(b))
  const nameOf = ({ taster }: AnsweredServing['seat']) => (taster?.name ? likeName(taster.name) : null)
  return inOrder
    .filter((seat, at) => {
      const name = nameOf(seat)
      return seat.repeatOfSeatId && name !== null && inOrder.slice(0, at).some((before) => nameOf(before) === name)
    })
    .map(({ number }) => number)
    .toSorted((a, b) => a - b)
}

const momentOf = ({ takenAt }: AnsweredServing['seat']) => (takenAt ? new Date(takenAt).getTime() : 0)

/** A serving with what its set said that does not count: after its taster knew too much, or after closing, in place of what does. */
export const withApart = (serving: ClosedServing) => ({
  ...serving,
  set: serving.set && { ...serving.set, answers: serving.set.apart },
})

export const withLate = (serving: ClosedServing) => ({
  ...serving,
  set: serving.set && { ...serving.set, answers: serving.set.uncounted.filter(({ why }) => why === 'late').slice(-1) },
})
