import { lost } from '@/lib/base/lost'
import { invertPositiveDefinite, quadratic, solveSemidefinite, type SquareMatrix } from '../algebra/positive-definite'
import { restrictedCriterion, restrictedDerivatives, type Derivatives } from './restricted-likelihood'
import { varianceStrata, type DesignRows, type Stratum } from './variance-strata'

/** A fitted model: the fixed effects, the variances, and how the likelihood bends around them. */
export interface MixedFit {
  readonly outcome: 'fitted'
  /** residual, taster and, where asked for, taster by cup; exactly 0 at the edge */
  readonly variances: readonly number[]
  /** a variance is estimated at zero */
  readonly singular: boolean
  readonly beta: Float64Array
  readonly curve: Derivatives
}

/** Scores that the model reproduces exactly, or that leave no degrees of freedom for a residual. */
export interface NoFit {
  readonly outcome: 'no residual' | 'saturated'
  /** residual 0 and the variance of the tasters' own levels, or null where nothing can be said */
  readonly taster: number | null
  readonly beta: Float64Array
}

/**
 * Which fixed effects and variances does restricted maximum likelihood choose for scores of a random sample of tasters?
 *
 *     y = X β + Z u + e,   u ~ N(0, τ²) per taster [and N(0, κ²) per taster and cup],   e ~ N(0, σ²)
 *
 * The likelihood is scanned over the ratios τ²/σ² and κ²/σ², then brought to its lowest deviance by Newton's method with
 * second derivatives; a variance whose deviance only rises from zero stays exactly at zero.
 *
 * @param design  columns of X and the centred score; X of full rank
 * @param nested  true: with κ², taster by cup
 * @param grain   the rounding unit of the scores; residuals of that size count as none
 *
 * Source   Patterson and Thompson (1971), Biometrika 58(3), 545–554; Bates et al. (2015), J. Stat. Softw. 67(1).
 * Checked  test/reference/acceptance-r-cases.test.ts
 * Limits   random intercepts only, nested as written; X with dependent columns is the caller's to mend.
 */
export function fitMixedModel(design: DesignRows, nested: boolean, grain: number): MixedFit | NoFit {
  const { width } = design
  const p = width - 1
  const start = withinTasters(varianceStrata(design, nested), width)
  const strata = varianceStrata(withoutEffects(design, start), nested)
  const [residual] = strata
  const left = residual ? stratumResidual(residual, width) : { df: 0, squares: 0 }
  if (left.df <= 0) return { outcome: 'saturated', taster: null, beta: start }
  if (left.squares <= left.df * (16 * grain) ** 2) {
    return { outcome: 'no residual', taster: tasterLevels(strata, width), beta: withTasterMean(start, strata, width) }
  }

  const fits = startingPoints(strata, width, nested ? 3 : 2).map((from) => descend(strata, from, width))
  const lowest = fits.reduce((best, fit) => (fit.curve.deviance < best.curve.deviance - 1e-9 ? fit : best))
  return {
    outcome: 'fitted',
    variances: lowest.variances,
    singular: lowest.variances.includes(0),
    beta: Float64Array.from({ length: p }, (_, j) => (start[j] ?? lost()) + (lowest.curve.beta[j] ?? lost())),
    curve: lowest.curve,
  }
}

/** Least squares within tasters: taken off first, so that large effects cost the variances no digits. */
function withinTasters(strata: readonly Stratum[], width: number): Float64Array {
  const p = width - 1
  const matrix = new Float64Array(p * p)
  const right = new Float64Array(p)
  for (const { size, structure, products } of strata) {
    const product = products[0]
    if (size > 1 || structure[1]?.[0] !== 0 || !product) continue
    for (let i = 0; i < p; i++) {
      right[i] = (right[i] ?? lost()) + (product[i * width + p] ?? lost())
      for (let j = 0; j < p; j++) matrix[i * p + j] = (matrix[i * p + j] ?? lost()) + (product[i * width + j] ?? lost())
    }
  }
  return solveSemidefinite(matrix, right, p).solution
}

function withoutEffects(design: DesignRows, beta: Float64Array): DesignRows {
  const { width } = design
  const rows = Float64Array.from(design.rows)
  for (let from = 0; from < rows.length; from += width) {
    let fitted = 0
    for (let j = 0; j < width - 1; j++) fitted += (rows[from + j] ?? lost()) * (beta[j] ?? lost())
    rows[from + width - 1] = (rows[from + width - 1] ?? lost()) - fitted
  }
  return { ...design, rows }
}

function stratumResidual({ count, products }: Stratum, width: number): { df: number; squares: number } {
  const p = width - 1
  const product = products[0] ?? new Float64Array(width * width)
  const matrix = new Float64Array(p * p)
  for (let i = 0; i < p; i++) matrix.set(product.subarray(i * width, i * width + p), i * p)
  const right = Float64Array.from({ length: p }, (_, i) => product[i * width + p] ?? lost())
  const { solution, dependent } = solveSemidefinite(matrix, right, p)
  const explained = solution.reduce((sum, value, j) => sum + value * (right[j] ?? lost()), 0)
  return { df: count - (p - dependent.length), squares: (product[p * width + p] ?? lost()) - explained }
}

/** Sums over tasters of their mean and its square, from strata of one size each. */
function tasterSums(strata: readonly Stratum[], width: number) {
  const p = width - 1
  let [tasters, sum, squares] = [0, 0, 0]
  for (const { count, size, structure, products } of strata) {
    const n = structure[1]?.[0] ?? lost()
    const product = products[0]
    if (size > 1 || n === 0 || !product) continue
    tasters += count
    sum += (product[p] ?? lost()) / n
    squares += (product[p * width + p] ?? lost()) / n
  }
  return { tasters, mean: tasters > 0 ? sum / tasters : 0, squares }
}

function tasterLevels(strata: readonly Stratum[], width: number): number {
  const { tasters, mean, squares } = tasterSums(strata, width)
  return tasters > 1 ? Math.max(0, squares - tasters * mean * mean) / (tasters - 1) : 0
}

function withTasterMean(beta: Float64Array, strata: readonly Stratum[], width: number): Float64Array {
  const shifted = Float64Array.from(beta)
  shifted[0] = (shifted[0] ?? lost()) + tasterSums(strata, width).mean
  return shifted
}

const RATIOS = [0, 0.003, 0.012, 0.05, 0.15, 0.4, 1, 2.5, 7, 25, 100, 1000, 1e5]

/** Every point of a grid of variance ratios that none of its neighbours undercuts. */
function startingPoints(strata: readonly Stratum[], width: number, components: number): readonly number[][] {
  const n = strata.reduce((sum, { count, size }) => sum + count * size, 0)
  const df = n - (width - 1)
  const profile = (...ratios: number[]) => {
    const at = restrictedCriterion(strata, [1, ...ratios], width)
    if (!at || at.residual <= 0) return { deviance: Infinity, variances: [1, ...ratios] }
    const scale = at.residual / df
    const deviance = at.deviance - at.residual + df * Math.log(scale)
    return { deviance, variances: [scale, ...ratios.map((ratio) => ratio * scale)] }
  }
  if (components === 2) return valleys([RATIOS.map((ratio) => profile(ratio))])
  const coarse = RATIOS.filter((_, i) => i % 2 === 0)
  return valleys(coarse.map((byCup) => coarse.map((taster) => profile(taster, byCup))))
}

function valleys(grid: readonly (readonly { deviance: number; variances: number[] }[])[]): readonly number[][] {
  const lowest = grid.flatMap((row, i) =>
    row.filter(({ deviance }, j) => {
      const around = [-1, 0, 1].flatMap((di) => [-1, 0, 1].map((dj) => grid[i + di]?.[j + dj]?.deviance ?? Infinity))
      return Number.isFinite(deviance) && around.every((other) => deviance <= other)
    }),
  )
  return lowest.map(({ variances }) => variances)
}

interface Point {
  readonly variances: readonly number[]
  readonly curve: Derivatives
}

/** Newton steps from a starting point to the bottom, with variances kept at or above zero. */
function descend(strata: readonly Stratum[], from: readonly number[], width: number): Point {
  let point = evaluate(strata, from, width)
  let before = Infinity
  for (let round = 0; round < 200; round++) {
    const { step, decrement } = newtonStep(point)
    if (decrement === 0) break
    let reach = 1
    let next = moved(strata, point, step, reach, width)
    if (decrement > 1e-8) {
      while ((!next || next.curve.deviance > point.curve.deviance) && reach > 1e-12) {
        reach /= 2
        next = moved(strata, point, step, reach, width)
      }
    }
    if (!next) break
    point = next
    // Newton squares the error: once the promise stops shrinking, only rounding is left.
    if (decrement < 1e-22 || (decrement < 1e-12 && decrement > before / 4)) break
    before = decrement
  }
  return point
}

function evaluate(strata: readonly Stratum[], variances: readonly number[], width: number): Point {
  const curve = restrictedDerivatives(strata, variances, width)
  if (!curve) throw new RangeError(`the likelihood cannot be evaluated at variances ${variances.join(', ')}`)
  return { variances, curve }
}

function moved(
  strata: readonly Stratum[],
  { variances }: Point,
  step: readonly number[],
  reach: number,
  width: number,
) {
  const [residual = 0] = variances
  const next = variances.map((value, r) => {
    const wanted = value + reach * (step[r] ?? lost())
    if (r === 0) return Math.max(wanted, residual / 10)
    return wanted <= 1e-10 * residual ? 0 : wanted
  })
  const curve = restrictedDerivatives(strata, next, width)
  return curve ? { variances: next, curve } : null
}

/** The step for the variances that are free to move, and how much it promises to take off the deviance (twice). */
function newtonStep({ variances, curve }: Point): { step: number[]; decrement: number } {
  const free = variances.flatMap((value, r) => {
    const slope = (curve.gradient[r] ?? lost()) / Math.sqrt(curve.expected[r]?.[r] ?? 1)
    return value > 0 || slope < -1e-9 ? [r] : []
  })
  const inverse = componentInverse(curve.hessian, free) ?? componentInverse(curve.expected, free)
  const step = variances.map(() => 0)
  if (!inverse) return { step, decrement: 0 }
  const slopes = free.map((r) => curve.gradient[r] ?? lost())
  free.forEach((r, i) => {
    step[r] = -slopes.reduce((sum, slope, j) => sum + (inverse[i * free.length + j] ?? lost()) * slope, 0)
  })
  return { step, decrement: quadratic(slopes, inverse, slopes, free.length) }
}

/** @returns the inverse of the rows and columns kept, or null where it is not positive definite */
export function componentInverse(matrix: readonly (readonly number[])[], kept: readonly number[]): SquareMatrix | null {
  const part = Float64Array.from(kept.flatMap((r) => kept.map((s) => matrix[r]?.[s] ?? lost())))
  return invertPositiveDefinite(part, kept.length)?.inverse ?? null
}
