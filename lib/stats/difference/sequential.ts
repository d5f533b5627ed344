import { demand } from '@/lib/base/demand'
import type { Answer } from '../outcome'
import { operatingFigures } from './sequential-error'
import { oneSided, sequentialLines, type OneSided, type SequentialLines, type SequentialPlan } from './sequential-lines'

export type SequentialDecision =
  'a preferred' | 'b preferred' | 'no preference shown' | 'go on' | 'undecided at the cap'

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
 * @param plan      fixed before the first answer
 * @returns         answers after the decision are not looked at; no fixed-size p or interval belongs to such a test
 * @throws RangeError  see `sequentialLines`; an answer that is neither a nor b
 *
 * Source   Wald (1947), Sequential Analysis; two-sided by two tests: Sobel & Wald (1949), Ann. Math. Stat. 20, 502–522; ISO 16820
 * Checked  test/reference/wald-1947-sequential.test.ts
 * Limits   Answers must be independent, one per taster; answers without a preference are left out before.
 * Cost     max × the distance between the lines, for the exact figures
 */
export function sequential(sequence: readonly ('a' | 'b')[], plan: SequentialPlan): Sequential {
  const lines = sequentialLines(plan)
  for (const answer of sequence) demand(answer === 'a' || answer === 'b', `an answer is a or b, got ${String(answer)}`)
  const { decision, at } = follow(sequence, lines, plan.max)
  const half = operatingFigures(lines, plan.max, 0.5)
  const there = operatingFigures(lines, plan.max, plan.p1)
  const seen = sequence.slice(0, at)
  const preferA = seen.filter((answer) => answer === 'a').length
  return {
    verb: 'sequential',
    level: 1 - plan.alpha,
    counts: { tasters: seen.length, preferA, preferB: seen.length - preferA },
    method: `two one-sided Wald tests of one half against ${plan.p1}, each at ${plan.alpha / 2} and ${plan.beta} (ISO 16820), at most ${plan.max} tasters; exact figures by counting all paths, averageTasters under one half`,
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
): { decision: SequentialDecision; at: number } {
  let x = 0
  let [testA, testB]: OneSided[] = ['running', 'running']
  for (let n = 1; n <= Math.min(max, sequence.length); n += 1) {
    if (sequence[n - 1] === 'a') x += 1
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
