import { demand } from '@/lib/base/demand'
import { noncentralStudentLower, noncentralStudentUpper } from '../distribution/noncentral-student'
import { studentQuantile } from '../distribution/student'
import { equivalencePower } from './equivalence-power'
import type { PlanKind } from '../liking/claim-plan'
import { type Aim, checkAim, smallestGrowing, type TastersAnswer } from './power'

function checkScores(sd: number, alpha: number): void {
  demand(sd > 0 && Number.isFinite(sd), `the standard deviation must be above 0, got ${sd}`)
  demand(alpha > 0 && alpha < 1, `alpha must lie between 0 and 1, got ${alpha}`)
}

function checkMargin(margin: number, truth: number): void {
  demand(margin > 0 && Number.isFinite(margin), `the margin must be above 0, got ${margin}`)
  demand(Number.isFinite(truth), `the true difference must be a number, got ${truth}`)
}

function plan(powerAt: (n: number) => number, aim: Aim, alpha: number, method: string): TastersAnswer {
  checkAim(aim, 2)
  const n = 'n' in aim ? aim.n : smallestGrowing(powerAt, aim.power, 2)
  return { verb: 'tasters', level: 1 - alpha, counts: { tasters: n }, method, notes: [], n, power: powerAt(n) }
}

/** How many comparisons a plan fixes beforehand: every pair, every cup against one, or a single pair. */
function plannedPairs(plan: PlanKind, cups: number): number {
  demand(Number.isInteger(cups) && cups >= 2, `the number of cups must be a whole number from 2, got ${cups}`)
  return plan === 'all' ? (cups * (cups - 1)) / 2 : plan === 'against' ? cups - 1 : 1
}

/**
 * How many tasters does it take to claim one named cup liked better than another?
 *
 *     power = P(|T| > t),  T noncentral t, df n − 1, noncentrality D / (S √(2/n)),
 *     t the two-sided critical value at α / m,  m pairs of the plan
 *
 * @param question  sd S, the standard deviation of one taster's one score about their own mean, √(taster-by-cup +
 *                  residual); difference D; cups K, a whole number ≥ 2; alpha for all comparisons together; plan
 * @param aim       the power to reach, or n ≥ 2
 * @returns         smallest n and the power of one claim there
 * @throws RangeError  a number outside its range; no panel of a million reaches the power
 *
 * Source   Cohen (1988), Statistical Power Analysis, chapter 2 (paired); Bonferroni's division
 * Checked  test/reference/cohen-1988-power.test.ts, test/reference/planned-power.test.ts
 * Limits   every taster scores every cup once; the joint interval of a claim is the paired t interval there
 */
export function tastersForAcceptance(
  question: {
    readonly sd: number
    readonly difference: number
    readonly cups: number
    readonly alpha: number
    readonly plan: PlanKind
  },
  aim: Aim,
): TastersAnswer {
  const { sd, difference, cups, alpha } = question
  checkScores(sd, alpha)
  demand(Number.isFinite(difference), `the difference must be a number, got ${difference}`)
  demand(difference !== 0 || 'n' in aim, `a difference of ${difference} cannot be found`)
  const pairs = plannedPairs(question.plan, cups)
  const powerAt = (n: number) => {
    const t = studentQuantile(1 - alpha / pairs / 2, n - 1)
    const shift = Math.abs(difference) / (sd * Math.sqrt(2 / n))
    return Math.min(1, noncentralStudentUpper(t, n - 1, shift) + noncentralStudentLower(-t, n - 1, shift))
  }
  const method = `two-sided noncentral t, paired, n − 1 degrees of freedom, ${sayAlpha(alpha, pairs)}`
  return plan(powerAt, aim, alpha, method)
}

const sayAlpha = (alpha: number, pairs: number) =>
  pairs === 1 ? `alpha ${alpha}` : `alpha ${alpha} divided by ${pairs} comparisons`

/** Of how many comparisons a margin test is one: without a plan it stands alone. */
interface Among {
  readonly plan?: PlanKind | undefined
  readonly cups?: number | undefined
}

function pairsAmong({ plan, cups }: Among): number {
  if (plan === undefined) return 1
  demand(plan === 'pair' || cups !== undefined, 'a plan of several comparisons needs the number of cups')
  return plannedPairs(plan, cups ?? 2)
}

/**
 * How many tasters does it take to show that one cup is not worse than another by a margin?
 *
 *     power = P(T > t),  T noncentral t, df n − 1, noncentrality (M + truth) / (S √(2/n)),  t one-sided at α
 *
 * @param question  sd S as for acceptance; margin M > 0; alpha, one-sided; truth, the true difference, above −M (0
 *                  where not given); with a plan, alpha is divided by its pairs
 * @param aim       the power to reach, or n ≥ 2
 * @returns         smallest n and its power
 * @throws RangeError  a number outside its range; no panel of a million reaches the power
 *
 * Source   Cohen (1988), chapter 2; Julious (2004), Statistics in Medicine 23, 1921–1986
 * Checked  test/reference/cohen-1988-power.test.ts, test/reference/planned-power.test.ts
 */
export function tastersForNotWorse(
  question: {
    readonly sd: number
    readonly margin: number
    readonly alpha: number
    readonly truth?: number | undefined
  } & Among,
  aim: Aim,
): TastersAnswer {
  const { sd, margin, alpha, truth = 0 } = question
  checkScores(sd, alpha)
  checkMargin(margin, truth)
  const pairs = pairsAmong(question)
  demand(truth > -margin || 'n' in aim, `a cup worse by the margin or more cannot be shown not worse, got ${truth}`)
  const powerAt = (n: number) =>
    noncentralStudentUpper(studentQuantile(1 - alpha / pairs, n - 1), n - 1, (margin + truth) / (sd * Math.sqrt(2 / n)))
  const method = `one-sided noncentral t, paired, n − 1 degrees of freedom, ${sayAlpha(alpha, pairs)}`
  return plan(powerAt, aim, alpha, method)
}

/**
 * How many tasters does it take to show that two cups differ by less than a margin either way?
 *
 * The exact power of the two one-sided tests, see `equivalencePower`.
 *
 * @param question  sd S as for acceptance; margin M > 0; alpha of each one-sided test, below one half; truth, the true
 *                  difference, within ±M (0 where not given); with a plan, alpha is divided by its pairs
 * @param aim       the power to reach, or n ≥ 2
 * @returns         smallest n and its power
 * @throws RangeError  a number outside its range; no panel of a million reaches the power
 *
 * Source   Schuirmann (1987), J. Pharmacokinetics and Biopharmaceutics 15, 657–680; Phillips (1990), ibid. 18, 137–144
 * Checked  test/reference/equivalence-power.test.ts
 */
export function tastersForEquivalence(
  question: {
    readonly sd: number
    readonly margin: number
    readonly alpha: number
    readonly truth?: number | undefined
  } & Among,
  aim: Aim,
): TastersAnswer {
  const { sd, margin, alpha, truth = 0 } = question
  checkScores(sd, alpha)
  const pairs = pairsAmong(question)
  demand(alpha < 0.5, `alpha of two one-sided tests must lie below one half, got ${alpha}`)
  checkMargin(margin, truth)
  demand(
    Math.abs(truth) < margin || 'n' in aim,
    `cups that differ by the margin or more are not equivalent, got ${truth}`,
  )
  const powerAt = (n: number) =>
    equivalencePower({ se: sd * Math.sqrt(2 / n), df: n - 1, margin, truth, alpha: alpha / pairs })
  const method = `exact power of the two one-sided t tests, paired, n − 1 degrees of freedom, ${sayAlpha(alpha, pairs)}`
  return plan(powerAt, aim, alpha, method)
}
