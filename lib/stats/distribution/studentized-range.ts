import { demand } from '@/lib/base/demand'
import { normalDensity, normalLower } from './normal'
import { quickNormalLower } from './normal-table'
import { spreadRule } from './scaled-spread'
import { solveMonotone } from './solve'
import { studentQuantile } from './student'

/** Step over the largest of the normal readings: the error lies below 1e-13 on the reference grid. */
const STEP = 0.25
const REACH = 8.5

/** The nodes z of the inner rule with φ(z)·step and Φ(z). */
const NODES = Array.from({ length: 2 * Math.round(REACH / STEP) + 1 }, (_, i) => {
  const z = i * STEP - REACH
  return { z, weight: STEP * normalDensity(z), lower: normalLower(z) }
})

function check(q: number, groups: number, df: number): void {
  demand(!Number.isNaN(q), `a studentized range must be a number, got ${q}`)
  demand(Number.isInteger(groups) && groups >= 2, `a range needs a whole number of groups from 2, got ${groups}`)
  demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
}

/** P(range of k normal readings ≤ w), or > w, from positive terms in either case. */
function rangeTail(w: number, groups: number, upper: boolean): number {
  let sum = 0
  for (const { z, weight, lower } of NODES) {
    // one reading is the largest, at z; the k − 1 others lie within w below it, or not
    const beyond = quickNormalLower(z - w)
    if (upper && beyond === 0) continue
    const within = lower - beyond
    let power = 1
    let gap = 0
    // aⁿ − bⁿ = (a − b)(aⁿ⁻¹ + aⁿ⁻²b + … + bⁿ⁻¹), term by term
    for (let n = 1; n < groups; n++) {
      gap = gap * lower + power
      power *= within
    }
    sum += weight * (upper ? beyond * gap : power)
  }
  return groups * sum
}

/** The density of the range of k normal readings at w. */
function rangeDensity(w: number, groups: number): number {
  let sum = 0
  for (const { z, weight, lower } of NODES) {
    if (z - w < -REACH) continue
    const within = lower - quickNormalLower(z - w)
    let term = weight * normalDensity(z - w)
    for (let n = 2; n < groups; n++) term *= within
    sum += term
  }
  return groups * (groups - 1) * sum
}

function integrate(q: number, groups: number, df: number, upper: boolean): number {
  let sum = 0
  for (const { ratio, weight } of spreadRule(df)) sum += weight * rangeTail(q * ratio, groups, upper)
  return Math.min(1, Math.max(0, sum))
}

/** Newton in ln q on the logarithm of the smaller tail, from Bonferroni's bound. */
function findQuantile(p: number, groups: number, df: number): number {
  const upper = p > 0.5
  const target = Math.log(upper ? 1 - p : p)
  const rule = spreadRule(df)
  const start = Math.SQRT2 * studentQuantile(1 - (1 - p) / (groups * (groups - 1)), df)
  const found = solveMonotone(
    (u) => {
      const q = Math.exp(u)
      let tail = 0
      let flow = 0
      for (const { ratio, weight } of rule) {
        tail += weight * rangeTail(q * ratio, groups, upper)
        flow += weight * q * ratio * rangeDensity(q * ratio, groups)
      }
      return { value: Math.log(tail) - target, slope: (upper ? -flow : flow) / tail }
    },
    Math.log(start),
    0.25,
    1e-13,
  )
  return Math.exp(found)
}

/**
 * How likely is a studentized range at or below q?
 *
 *     P(R/s ≤ q) = ∫ g(u) · k ∫ φ(z) [Φ(z) − Φ(z − q eᵘ)]^(k−1) dz du,   g the density of ln(s/σ) on ν degrees of freedom
 *
 * @param q       range of k means over the standard error of one mean; below 0 nothing lies
 * @param groups  k, a whole number ≥ 2
 * @param df      degrees of freedom ν of s, real, > 0; Infinity allowed
 * @throws RangeError  q not a number, groups below 2 or not whole, df not above 0
 *
 * Source   Tukey (1953), The problem of multiple comparisons; Copenhaver and Holland (1988), J. Stat. Comput. Simul. 30, 1–15
 * Checked  test/reference/distribution-grids.test.ts (absolute 1e-10)
 */
export function studentizedRangeLower(q: number, groups: number, df: number): number {
  check(q, groups, df)
  if (q <= 0) return 0
  return q === Infinity ? 1 : integrate(q, groups, df, false)
}

/**
 * How likely is a studentized range above q? Tukey's p for a pair, with q = |t|·√2.
 *
 * @param q       range of k means over the standard error of one mean
 * @param groups  k, a whole number ≥ 2
 * @param df      degrees of freedom, real, > 0; Infinity allowed
 * @throws RangeError  q not a number, groups below 2 or not whole, df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts (absolute 1e-10)
 */
export function studentizedRangeUpper(q: number, groups: number, df: number): number {
  check(q, groups, df)
  if (q <= 0) return 1
  return q === Infinity ? 0 : integrate(q, groups, df, true)
}

const remembered = new Map<string, number>()
const REMEMBERED_AT_MOST = 2000

/**
 * Which q does the studentized range stay below with probability p?
 *
 * Answers are remembered: a result page asks the same one for every pair.
 *
 * @param p       0 ≤ p ≤ 1; 0 gives 0, 1 gives Infinity
 * @param groups  k, a whole number ≥ 2
 * @param df      degrees of freedom, real, > 0; Infinity allowed
 * @throws RangeError  p outside [0, 1], groups below 2 or not whole, df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts (relative 1e-9)
 */
export function studentizedRangeQuantile(p: number, groups: number, df: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  check(1, groups, df)
  if (p === 0) return 0
  if (p === 1) return Infinity
  const key = `${p} ${groups} ${df}`
  const known = remembered.get(key)
  if (known !== undefined) return known
  const found = findQuantile(p, groups, df)
  if (remembered.size >= REMEMBERED_AT_MOST) remembered.clear()
  remembered.set(key, found)
  return found
}
