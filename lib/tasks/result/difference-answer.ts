import 'server-only'
import { guessingShare, type Protocol } from '@/lib/stats/difference/protocol'
import { difference, differenceOfTasters, type DifferenceAnswer } from '@/lib/stats/difference/difference-test'
import { similarityNumber } from '@/lib/stats/difference/critical-number'
import type { DifferenceAim, DifferenceDesign } from '@/lib/panel/kinds/difference'
import type { Interval } from '@/lib/stats/outcome'
import { ALPHA } from '../plan/read-plan-figures'
import { tastersForTelling } from '../plan/telling-power'
import type { AnsweredServing, ResultCup } from './panel-answers'
import { answeredSets, type AnsweredSet } from './answered-sets'

/** What a panel found that asked whether two cups can be told apart. Letters are those of the result. */
export interface DifferenceResult {
  readonly kind: 'difference'
  readonly aim: DifferenceAim
  readonly protocol: Protocol
  readonly property: string | null
  /** the cup that should have more of the property; the first of the plan where none is asked */
  readonly cup: string
  readonly other: string
  readonly tasters: number
  /** from each of them */
  readonly each: number
  readonly answers: number
  readonly right: number
  /** share right by luck */
  readonly guessing: number
  /** exact, one-sided, over all answers; null where nobody answered */
  readonly p: number | null
  /** right answers that it takes; null where no count is enough */
  readonly critical: number | null
  /** share of tasters who can tell, with its 95 % interval where there is one */
  readonly telling: { readonly estimate: number; readonly interval: Interval | null } | null
  readonly dPrime: {
    readonly estimate: number | null
    /** an end that no finite distance reaches is null */
    readonly interval: readonly [low: number | null, high: number | null] | null
  } | null
  /** of an aim that few can tell: the bound, the exact one-sided limit and its test; most: right answers that still show it, null where none would */
  readonly similarity: {
    readonly bound: number
    readonly upper: number
    readonly p: number
    readonly most: number | null
    readonly shown: boolean
  } | null
  /** how it was planned to be hidden what could be seen */
  readonly mask: string | null
  /** percent of tasters who can tell: to be found, or the bound */
  readonly sought: number
  /** tasters that reach the plan's aim four times out of five; null where four hundred do not */
  readonly needed: number | null
  /** seats whose answers are a person's second or later ones: kept, and not counted */
  readonly later: readonly number[]
  /** seats that answered fewer sets than planned: kept, and not counted */
  readonly incomplete: readonly number[]
}

/**
 * Was the answer about this set right?
 *
 * @param served  letters in the order of tasting
 * @param said    letters as the answer has them
 * @param more    the cup that should have more of the property
 *
 * Source   ISO 4120, ISO 10399, ISO 5495, ASTM E3009
 * Checked  test/unit/tasks/result/difference-answer.test.ts
 */
export function isRight(protocol: Protocol, served: readonly string[], said: readonly string[], more: string): boolean {
  const [one, other] = said
  switch (protocol) {
    case 'triangle':
      return served.filter((letter) => letter === one).length === 1
    case 'duo-trio':
      return one === served[0]
    case 'two-afc':
    case 'three-afc':
      return one === more
    case 'tetrad':
      return one !== undefined && one === other
  }
}

/** The answers that count, of tasters who gave as many as planned; and the seats that gave fewer. */
export function countedTasters(
  { protocol, each }: Pick<DifferenceDesign, 'protocol' | 'each'>,
  sets: readonly AnsweredSet[],
  later: readonly number[],
  more: string,
): { readonly right: ReadonlyMap<number, number>; readonly incomplete: readonly number[] } {
  const own = new Map<number, boolean[]>()
  for (const { seat, served, letters } of sets) {
    if (letters === null || later.includes(seat)) continue
    own.set(seat, [...(own.get(seat) ?? []), isRight(protocol, served, letters, more)])
  }
  const whole = [...own].filter(([, said]) => said.length === each)
  return {
    right: new Map(whole.map(([seat, said]) => [seat, said.filter(Boolean).length])),
    incomplete: [...own].flatMap(([seat, said]) => (said.length === each ? [] : [seat])).toSorted((a, b) => a - b),
  }
}

/**
 * Can these tasters tell them apart, or can so few that it does not matter?
 *
 * @param later  seats whose answers do not count as they are a person's later ones; kept from closing, as names go with time
 * @param more   letter of the cup that the plan names first
 *
 * Source   ISO 4120, ISO 10399, ISO 5495; over several answers each Meyners and Brockhoff (2003)
 * Checked  test/integration/panel/difference-result.test.ts
 */
export function findDifference(
  design: DifferenceDesign,
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  { later, more }: { readonly later: readonly number[]; readonly more: string | null },
): DifferenceResult {
  const { aim, protocol, property, each } = design
  const letters = cups.map(({ letter }) => letter)
  const cup = more ?? letters[0] ?? ''
  const { right, incomplete } = countedTasters(design, answeredSets(servings, cups), later, cup)
  const counts = [...right.values()]
  const answers = counts.length * each
  const bound = aim === 'alike' ? design.share / 100 : null
  const found = counts.length === 0 ? null : testOf(design, counts, bound)
  return {
    kind: 'difference',
    ...{ aim, protocol, property, cup, each, answers, incomplete },
    other: letters.find((letter) => letter !== cup) ?? '',
    tasters: counts.length,
    right: counts.reduce((sum, one) => sum + one, 0),
    guessing: guessingShare(protocol),
    p: found?.p ?? null,
    critical: found?.critical ?? null,
    telling: found && { estimate: found.distinguishing.estimate, interval: found.distinguishing.interval },
    dPrime: found && { estimate: found.dPrime.estimate, interval: found.dPrime.interval },
    similarity: found && bound !== null ? similarityOf(found, answers, bound) : null,
    mask: design.mask,
    sought: design.share,
    needed: tastersForTelling(design)?.n ?? null,
    later: [...later],
  }
}

function testOf(
  { protocol, each }: DifferenceDesign,
  right: readonly number[],
  bound: number | null,
): DifferenceAnswer {
  const options = { level: 1 - ALPHA }
  if (each > 1) return differenceOfTasters({ protocol, right, each }, options)
  const correct = right.reduce((sum, one) => sum + one, 0)
  return difference({ protocol, correct, total: right.length, ...(bound !== null && { limit: bound }) }, options)
}

function similarityOf(
  { similarity, guessing }: DifferenceAnswer,
  answers: number,
  bound: number,
): DifferenceResult['similarity'] {
  if (!similarity) return null
  const most = similarityNumber(answers, guessing + (1 - guessing) * bound, ALPHA)
  return { bound, upper: similarity.upper, p: similarity.p, most, shown: similarity.similar }
}
