import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import type { Answer } from '../outcome'
import { isLook, oneTestFigures, operatingFigures, type Looks } from './sequential-error'
import {
  guessingLines,
  oneSided,
  sequentialLines,
  type OneSided,
  type SequentialLines,
  type SequentialPlan,
} from './sequential-lines'

export type SequentialDecision =
  'a preferred' | 'b preferred' | 'no preference shown' | 'go on' | 'undecided at the cap'
export type GuessingDecision = 'difference' | 'no difference shown' | 'go on' | 'undecided at the cap'

/** Decisions are taken only after so many answers: the tasters at the end of each sitting. */
export interface SittingLooks {
  readonly looks?: readonly number[] | undefined
}

export interface Sequential extends Answer<
  'sequential',
  { readonly tasters: number; readonly preferA: number; readonly preferB: number }
> {
  readonly decision: SequentialDecision
  /** after which answer the decision fell, or how many answers there are so far */
  readonly at: number
  readonly lines: SequentialLines
  /** exact, with the cap: risk under one half; chance at p1 of showing a; answers needed on average */
  readonly exact: {
    readonly falseAlarm: number
    readonly power: number
    /** under one half */
    readonly averageTasters: number
    /** at p1 */
    readonly averageTastersAtP1: number
  }
}

/**
 * Told taster by taster: is a preferred, or b, or is no preference shown, or must more taste?
 *
 *     one Wald test of ½ against p1 for a, one for b, each at alpha / 2; each ends at the first line it meets;
 *     one that shows a preference decides, both ended without decide for none
 *
 * @param sequence  answers in the order they were given
 * @param plan      fixed before the first answer; looks: the answers there are at the end of each sitting, rising, at most max
 * @returns         answers after the decision are not looked at; no fixed-size p or interval belongs to such a test
 * @throws RangeError  see `sequentialLines`; an answer that is neither a nor b
 *
 * Source   Wald (1947), Sequential Analysis; two-sided by two tests: Sobel & Wald (1949), Ann. Math. Stat. 20, 502–522; ISO 16820
 * Checked  test/reference/wald-1947-sequential.test.ts
 * Limits   Answers must be independent, one per taster; answers without a preference are left out before.
 * Cost     max × the distance between the lines, for the exact figures
 */
export function sequential(sequence: readonly ('a' | 'b')[], plan: SequentialPlan & SittingLooks): Sequential {
  const lines = sequentialLines(plan)
  const looks = looksOf(plan)
  for (const answer of sequence) demand(answer === 'a' || answer === 'b', `an answer is a or b, got ${String(answer)}`)
  const { decision, at } = follow(sequence, lines, plan.max, looks)
  const half = operatingFigures(lines, plan.max, 0.5, looks)
  const there = operatingFigures(lines, plan.max, plan.p1, looks)
  const seen = sequence.slice(0, at)
  const preferA = seen.filter((answer) => answer === 'a').length
  return {
    verb: 'sequential',
    level: 1 - plan.alpha,
    counts: { tasters: seen.length, preferA, preferB: seen.length - preferA },
    method: `two one-sided Wald tests of one half against ${plan.p1}, each at ${plan.alpha / 2} and ${plan.beta} (ISO 16820), at most ${plan.max} tasters${sayLooks(looks)}; exact figures by counting all paths, averageTasters under one half`,
    notes: sequence.length > at ? [`${sequence.length - at} answers after the decision are not looked at`] : [],
    decision,
    at,
    lines,
    exact: {
      falseAlarm: half.showA + half.showB,
      power: there.showA,
      averageTasters: half.average,
      averageTastersAtP1: there.average,
    },
  }
}

function follow(
  sequence: readonly ('a' | 'b')[],
  lines: SequentialLines,
  max: number,
  looks: Looks,
): { decision: SequentialDecision; at: number } {
  let x = 0
  let [testA, testB]: OneSided[] = ['running', 'running']
  for (let n = 1; n <= Math.min(max, sequence.length); n += 1) {
    if (sequence[n - 1] === 'a') x += 1
    if (!isLook(looks, n)) continue
    if (testA === 'running') testA = oneSided(lines, x, n)
    if (testB === 'running') testB = oneSided(lines, n - x, n)
    if (testA === 'shown') return { decision: 'a preferred', at: n }
    if (testB === 'shown') return { decision: 'b preferred', at: n }
    if (testA === 'not shown' && testB === 'not shown') return { decision: 'no preference shown', at: n }
  }
  return sequence.length >= max
    ? { decision: 'undecided at the cap', at: max }
    : { decision: 'go on', at: sequence.length }
}

export interface SequentialGuessing extends Answer<
  'sequential',
  { readonly tasters: number; readonly correct: number }
> {
  readonly decision: GuessingDecision
  readonly at: number
  readonly lines: SequentialLines
  readonly exact: {
    readonly falseAlarm: number
    readonly power: number
    /** under guessing */
    readonly averageTasters: number
    readonly averageTastersAtP1: number
  }
}

/**
 * Told taster by taster whether the answer was right: can they tell, or is no difference shown, or must more taste?
 *
 *     one Wald test of guessing g against g + D (1 − g)
 *
 * @param sequence  right or wrong, in the order of tasting
 * @param plan      fixed before the first answer: D, the share of tasters who can tell that should be noticed, 0 < D < 1
 * @throws RangeError  see `guessingLines`
 *
 * Source   Wald (1947), Sequential Analysis, 5.3; ISO 16820
 * Checked  test/reference/wald-1947-looks.test.ts
 * Limits   Answers must be independent, one per taster.
 */
export function sequentialGuessing(
  sequence: readonly boolean[],
  plan: {
    readonly guessing: number
    readonly telling: number
    readonly alpha: number
    readonly beta: number
    readonly max: number
  } & SittingLooks,
): SequentialGuessing {
  const { guessing: p0, telling, alpha, beta, max } = plan
  demand(telling > 0 && telling < 1, `the share who can tell must lie between 0 and 1, got ${telling}`)
  const p1 = p0 + telling * (1 - p0)
  const lines = guessingLines({ p0, p1, alpha, beta, max })
  const looks = looksOf(plan)
  const { decision, at } = followOne(sequence, lines, max, looks)
  const [none, there] = [oneTestFigures(lines, max, p0, looks), oneTestFigures(lines, max, p1, looks)]
  return {
    verb: 'sequential',
    level: 1 - alpha,
    counts: { tasters: at, correct: sequence.slice(0, at).filter(Boolean).length },
    method: `one Wald test of guessing (${p0}) against ${p1}, at ${alpha} and ${beta}, at most ${max} tasters${sayLooks(looks)}; exact figures by counting all paths, averageTasters under guessing`,
    notes: sequence.length > at ? [`${sequence.length - at} answers after the decision are not looked at`] : [],
    decision,
    at,
    lines,
    exact: {
      falseAlarm: none.shown,
      power: there.shown,
      averageTasters: none.average,
      averageTastersAtP1: there.average,
    },
  }
}

function followOne(
  sequence: readonly boolean[],
  lines: SequentialLines,
  max: number,
  looks: Looks,
): { decision: GuessingDecision; at: number } {
  let x = 0
  for (let n = 1; n <= Math.min(max, sequence.length); n += 1) {
    if (sequence[n - 1]) x += 1
    if (!isLook(looks, n)) continue
    const now = oneSided(lines, x, n)
    if (now === 'shown') return { decision: 'difference', at: n }
    if (now === 'not shown') return { decision: 'no difference shown', at: n }
  }
  return sequence.length >= max
    ? { decision: 'undecided at the cap', at: max }
    : { decision: 'go on', at: sequence.length }
}

/** @throws RangeError  looks that do not rise, or lie beyond the cap */
function looksOf({ looks, max }: SittingLooks & { readonly max: number }): Looks {
  if (looks === undefined) return null
  looks.forEach((look, at) => {
    demand(Number.isInteger(look) && look >= 1, `a look comes after a whole number of tasters, got ${look}`)
    demand(at === 0 || look > (looks[at - 1] ?? lost()), `looks must rise, got ${looks.join(', ')}`)
    demand(look <= max, `a look after ${look} tasters lies beyond the cap of ${max}`)
  })
  return new Set(looks)
}

const sayLooks = (looks: Looks) => (looks === null ? '' : `, looked at after ${[...looks].join(', ')}`)
