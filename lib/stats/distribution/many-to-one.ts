import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { fewFactorOutside } from './few-factor'
import { normalDensity } from './normal'
import { quickNormalLower } from './normal-table'
import { oneFactorLoadings } from './one-factor'
import { type SpreadPoint, spreadRule } from './scaled-spread'
import { solveBetween } from './solve'
import { studentQuantile } from './student'

type Matrix = readonly (readonly number[])[]

const MOST_CONTRASTS = 11
const REACH = 8.5

/**
 * How likely is it that none of several correlated t statistics, sharing one s, lies further from 0 than q?
 *
 *     P(|T_i| ≤ q, all i) = ∫ g(u) ∫ φ(z) Π_i [Φ((w − λ_i z)/c_i) − Φ((−w − λ_i z)/c_i)] dz du,
 *     w = q eᵘ,  c_i = √(1 − λ_i²),  g the density of ln(s/σ) on ν degrees of freedom,  ρ_ij = λ_i λ_j
 *
 * @param q            t scale; below 0 nothing lies
 * @param df           degrees of freedom ν, real, > 0; Infinity allowed
 * @param correlation  of the contrasts, m × m, m from 1 to 11; need not be equal, need not be products
 * @throws RangeError  q not a number, df not above 0, a matrix that is not a correlation matrix of 1 to 11 contrasts
 *
 * Source   Dunnett (1955), J. Am. Stat. Assoc. 50, 1096–1121; Dunnett and Sobel (1955), Biometrika 42, 258–260
 * Checked  test/reference/distribution-grids.test.ts (absolute 1e-9), test/reference/mvtnorm-many-to-one.test.ts
 * Limits   correlations that are no products go by two or three factors: absolute error about 1e-7 up to six contrasts,
 *          about 1e-6 beyond (`fewFactorOutside`)
 */
export function manyToOneInside(q: number, df: number, correlation: Matrix): number {
  return 1 - manyToOneOutside(q, df, correlation)
}

/**
 * How likely is it that at least one of them lies further from 0 than q? Dunnett's two-sided p, with q = |t|.
 * Summed from positive terms where the correlations are products.
 *
 * @param q            t scale
 * @param df           degrees of freedom, real, > 0; Infinity allowed
 * @param correlation  of the contrasts, m × m, m from 1 to 11
 * @throws RangeError  q not a number, df not above 0, a matrix that is not a correlation matrix of 1 to 11 contrasts
 *
 * Checked  test/reference/distribution-grids.test.ts, test/reference/mvtnorm-many-to-one.test.ts
 */
export function manyToOneOutside(q: number, df: number, correlation: Matrix): number {
  demand(!Number.isNaN(q), `t must be a number, got ${q}`)
  demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
  checkCorrelation(correlation)
  if (q <= 0) return 1
  return q === Infinity ? 0 : outsideOf(correlation, df)(q)
}

const remembered = new Map<string, number>()
const REMEMBERED_AT_MOST = 500

/**
 * Which q do all of them stay within with probability p? The reach of Dunnett's intervals. Answers are remembered.
 *
 * @param p            0 ≤ p ≤ 1; 0 gives 0, 1 gives Infinity
 * @param df           degrees of freedom, real, > 0; Infinity allowed
 * @param correlation  of the contrasts, m × m, m from 1 to 11
 * @throws RangeError  p outside [0, 1], df not above 0, a matrix that is not a correlation matrix of 1 to 11 contrasts
 *
 * Checked  test/reference/dunnett-1964-critical-values.test.ts
 */
export function manyToOneQuantile(p: number, df: number, correlation: Matrix): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
  checkCorrelation(correlation)
  if (p === 0 || p === 1) return p === 0 ? 0 : Infinity
  const key = `${p} ${df} ${correlation.join(';')}`
  const known = remembered.get(key)
  if (known !== undefined) return known
  const outside = outsideOf(correlation, df)
  const target = Math.log(1 - p)
  const alone = studentQuantile((1 + p) / 2, df)
  const bonferroni = studentQuantile(1 - (1 - p) / (2 * correlation.length), df)
  // the true reach lies between one contrast's and Bonferroni's; the margin covers the error of the factors
  const found = solveBetween((q) => target - Math.log(outside(q)), alone * 0.999, bonferroni * 1.001, 1e-13)
  if (remembered.size >= REMEMBERED_AT_MOST) remembered.clear()
  remembered.set(key, found)
  return found
}

function checkCorrelation(correlation: Matrix): void {
  const m = correlation.length
  demand(m >= 1 && m <= MOST_CONTRASTS, `from 1 to ${MOST_CONTRASTS} contrasts can be compared, got ${m}`)
  for (let i = 0; i < m; i++) {
    const row = correlation[i] ?? []
    demand(row.length === m, `a correlation matrix must be square, got a row of ${row.length} among ${m}`)
    for (let j = 0; j < m; j++) {
      const r = row[j] ?? NaN
      demand(Math.abs(r) <= 1 + 1e-9, `a correlation must lie between -1 and 1, got ${r}`)
      demand(
        Math.abs(r - (correlation[j]?.[i] ?? NaN)) <= 1e-9,
        `correlations must be symmetric, got ${r} at ${i}, ${j}`,
      )
    }
    demand(Math.abs((row[i] ?? NaN) - 1) <= 1e-9, `a contrast correlates 1 with itself, got ${row[i]}`)
  }
}

const prepared = new Map<string, (q: number) => number>()

/** The probability as a function of q; what depends on the matrix alone is done once and remembered. */
function outsideOf(correlation: Matrix, df: number): (q: number) => number {
  const key = `${df} ${correlation.join(';')}`
  const known = prepared.get(key)
  if (known) return known
  const distinct = withoutCopies(correlation)
  const exact = oneFactorLoadings(distinct)
  const rule = spreadRule(df)
  const outside = exact ? (q: number) => productOutside(q, rule, exact) : fewFactorOutside(distinct, df)
  if (prepared.size >= REMEMBERED_AT_MOST) prepared.clear()
  prepared.set(key, outside)
  return outside
}

/** Contrasts that are another one, or its mirror image, add nothing to a two-sided question. */
function withoutCopies(correlation: Matrix): Matrix {
  const kept: number[] = []
  correlation.forEach((row, i) => {
    if (!kept.some((j) => Math.abs(row[j] ?? lost()) > 1 - 1e-12)) kept.push(i)
  })
  return kept.map((i) => kept.map((j) => correlation[i]?.[j] ?? lost()))
}

function productOutside(q: number, rule: readonly SpreadPoint[], loadings: readonly number[]): number {
  const arms = loadings.map((loading) => {
    const own = Math.sqrt((1 - loading) * (1 + loading))
    return { slope: loading / own, scale: 1 / own }
  })
  const steepest = Math.max(...arms.map(({ slope }) => Math.abs(slope)))
  const step = Math.min(0.25, 0.5 / steepest)
  const nodes: { z: number; weight: number }[] = []
  // the integrand is even in z: half the line, its end at 0 counted half
  for (let z = 0; z <= REACH; z += step) nodes.push({ z, weight: (z === 0 ? 1 : 2) * step * normalDensity(z) })

  let sum = 0
  for (const { ratio, weight: spreadWeight } of rule) {
    const w = q * ratio
    let inner = 0
    for (const { z, weight } of nodes) {
      let outside = 0
      for (const { slope, scale } of arms) {
        const tails = quickNormalLower(slope * z - w * scale) + quickNormalLower(-slope * z - w * scale)
        outside += tails * (1 - outside)
      }
      inner += weight * outside
    }
    sum += spreadWeight * inner
  }
  return Math.min(1, sum)
}
