import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { criticalNumber } from '../difference/critical-number'
import { guessingShare, type Protocol } from '../difference/protocol'

/** A difference test in which every taster answers several times. */
export interface RepeatedQuestion {
  readonly protocol: Protocol
  /** share of tasters who can really tell, 0 ≤ pd ≤ 1: they are right each time, the others guess each time */
  readonly pd: number
  /** answers from each taster, a whole number ≥ 1 */
  readonly each: number
  readonly alpha: number
}

/** Chance, critical number of right answers (null where no count is enough) and answers in all of one plan. */
export interface RepeatedPlan {
  readonly n: number
  readonly answers: number
  readonly critical: number | null
  readonly power: number
}

/** How likely is it that one taster is right 0, 1, … times? */
function oneTaster({ protocol, pd, each }: RepeatedQuestion): number[] {
  const g = guessingShare(protocol)
  const chances = [1 - pd]
  for (let asked = 1; asked <= each; asked += 1) {
    chances.push(0)
    for (let right = asked; right >= 0; right -= 1)
      chances[right] = (chances[right] ?? lost()) * (1 - g) + (right > 0 ? (chances[right - 1] ?? lost()) * g : 0)
  }
  chances[each] = (chances[each] ?? lost()) + pd
  return chances
}

function withOneMore(all: readonly number[], one: readonly number[]): number[] {
  const next = Array<number>(all.length + one.length - 1).fill(0)
  all.forEach((chance, at) =>
    one.forEach((more, right) => (next[at + right] = (next[at + right] ?? lost()) + chance * more)),
  )
  return next
}

function check({ pd, each, alpha }: RepeatedQuestion): void {
  demand(pd >= 0 && pd <= 1, `the share who can tell must lie from 0 to 1, got ${pd}`)
  demand(Number.isInteger(each) && each >= 1, `answers from each must be a whole number from 1, got ${each}`)
  demand(alpha > 0 && alpha < 1, `alpha must lie between 0 and 1, got ${alpha}`)
}

function planOf(question: RepeatedQuestion, n: number, chances: readonly number[]): RepeatedPlan {
  const answers = n * question.each
  const critical = criticalNumber(answers, guessingShare(question.protocol), question.alpha)
  const power = critical === null ? 0 : chances.slice(critical).reduce((sum, one) => sum + one, 0)
  return { n, answers, critical, power }
}

/**
 * With n tasters, each answering several times, how likely is the difference found?
 *
 *     power = P(X ≥ c),  c the critical number of n·k answers against guessing g;  X sums over tasters
 *     k with chance pd (who can tell is right each time), else a binomial of k and g
 *
 * Answers of one taster hang together, so that two answers each of twenty find less than one each of forty; under luck alone
 * they do not, and the test over all of them keeps its level.
 *
 * @param n  tasters, a whole number ≥ 1
 * @throws RangeError  a number outside its range
 *
 * Source   enumeration; the test: Meyners and Brockhoff (2003), Food Quality and Preference 14, 355–364
 * Checked  test/reference/repeated-difference.test.ts
 * Limits   who can tell is right each time; tasters who can tell only sometimes hang together less
 * Cost     n²·k²
 */
export function repeatedPower(question: RepeatedQuestion, n: number): RepeatedPlan {
  check(question)
  demand(Number.isInteger(n) && n >= 1, `tasters must be a whole number from 1, got ${n}`)
  const one = oneTaster(question)
  let chances: number[] = [1]
  for (let taster = 0; taster < n; taster += 1) chances = withOneMore(chances, one)
  return planOf(question, n, chances)
}

/**
 * How many tasters find it, each answering several times?
 *
 * @param power  to be reached, 0 < power < 1
 * @param most   beyond so many nobody looks
 * @returns      the smallest number that reaches it; null where `most` do not
 *
 * Source   as `repeatedPower`
 * Checked  test/reference/repeated-difference.test.ts
 */
export function tastersForRepeated(question: RepeatedQuestion, power: number, most: number): RepeatedPlan | null {
  check(question)
  demand(power > 0 && power < 1, `power must lie between 0 and 1, got ${power}`)
  const one = oneTaster(question)
  let chances: number[] = [1]
  for (let n = 1; n <= most; n += 1) {
    chances = withOneMore(chances, one)
    const plan = planOf(question, n, chances)
    if (plan.power >= power) return plan
  }
  return null
}
