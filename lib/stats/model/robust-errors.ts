import { lost } from '@/lib/base/lost'
import {
  invertPositiveDefinite,
  multiply,
  quadratic,
  traceOfProduct,
  type SquareMatrix,
} from '../algebra/positive-definite'
import { symmetricEigen } from '../algebra/symmetric-eigen'
import { tasterPatterns, type TasterPattern } from './taster-patterns'
import type { DesignRows } from './variance-strata'

/** A standard error that believes only in the tasters. */
export interface RobustError {
  readonly se: number
  /** null where the design leaves none */
  readonly df: number | null
}

/** What the working covariance is made of; the residual stands above zero. */
export interface WorkingVariances {
  readonly residual: number
  readonly taster: number
  /** of a taster's scores for one cup, 0 without that term */
  readonly tasterByCup: number
}

/**
 * How uncertain is a combination of effects if nothing is believed but that tasters are independent of one another?
 *
 *     Var(cᵀβ) = Σᵢ (hᵢᵀ êᵢ)²,   hᵢᵀ = cᵀ M Xᵢᵀ Wᵢ Aᵢ,   M = (Σ Xᵢᵀ Wᵢ Xᵢ)⁻¹,   Wᵢ = Vᵢ⁻¹,   ê = y − X β
 *     Aᵢ = Dᵢᵀ (Dᵢ (Vᵢ − Xᵢ M Xᵢᵀ) Dᵢᵀ)^(−½) Dᵢ,   Dᵢᵀ Dᵢ = Vᵢ   (CR2: right on the average if V is)
 *     df = (Σ pᵢᵢ)² / Σᵢⱼ pᵢⱼ²,   pᵢⱼ = δᵢⱼ hᵢᵀ Vᵢ hᵢ − uᵢᵀ M uⱼ,   uᵢ = Xᵢᵀ hᵢ   (Satterthwaite)
 *
 * i a taster, V the covariance that the mixed model estimates. With every taster on every cup once a difference of cups
 * has the paired t test's error, on n − 1 degrees of freedom.
 *
 * @param design     the rows that were fitted, sorted by taster
 * @param beta       their generalised least squares estimates
 * @param variances  of V = residual · I + tasterByCup (same cup) + taster (same taster)
 * @returns          one answer per combination c, or null where the columns depend on one another
 *
 * Source   Bell and McCaffrey (2002), Survey Methodology 28(2), 169–181; Pustejovsky and Tipton (2018), J. Bus. Econ. Stat.
 *          36(4), 672–683.
 * Checked  test/reference/robust-contrasts.test.ts (clubSandwich)
 * Limits   the degrees of freedom take V to be right; below about four of them an interval promises too much.
 * Cost     linear in the scores; what the design alone decides is computed once per pattern of tasters
 */
export function robustErrors(
  design: DesignRows,
  beta: Float64Array,
  variances: WorkingVariances,
): ((contrast: Float64Array) => RobustError) | null {
  const p = design.width - 1
  const { patterns, patternOf, starts, scores } = tasterPatterns(design)
  const bases = patterns.map((pattern) => workingBasis(pattern, variances, p))
  const information = new Float64Array(p * p)
  patterns.forEach(({ tasters, size }, g) => {
    const { values, turned } = bases[g] ?? NO_BASIS
    for (let k = 0; k < size; k++) addOuter(information, turned.subarray(k * p, k * p + p), tasters / at(values, k), p)
  })
  const inverse = invertPositiveDefinite(information, p)?.inverse
  if (!inverse) return null
  const spreads = patterns.map(({ size }, g) => patternSpread(bases[g] ?? NO_BASIS, inverse, size, p))
  const residuals = residualScores(patterns, patternOf, starts, scores, beta)

  return (contrast) => {
    const directions: Float64Array[] = []
    const outer = new Float64Array(p * p)
    let [expected, variance] = [0, 0]
    patterns.forEach(({ tasters, size }, g) => {
      const { values, vectors, turned } = bases[g] ?? NO_BASIS
      const own = timesVector(spreads[g] ?? outer, contrast, size, p)
      directions.push(timesVector(vectors, own, size, size))
      let weight = 0
      const effects = new Float64Array(p)
      for (let k = 0; k < size; k++) {
        weight += at(own, k) ** 2 * at(values, k)
        for (let j = 0; j < p; j++) effects[j] = at(effects, j) + at(own, k) * at(turned, k * p + j)
      }
      const explained = quadratic(effects, inverse, effects, p)
      addOuter(outer, effects, tasters, p)
      expected += tasters * (weight - explained)
      variance += tasters * weight * (weight - 2 * explained)
    })
    const joint = multiply(inverse, outer, p)
    variance += traceOfProduct(joint, joint, p)

    let squares = 0
    for (let taster = 0; taster < patternOf.length; taster++) {
      const direction = directions[at(patternOf, taster)] ?? outer
      const from = at(starts, taster)
      let sum = 0
      for (let i = from; i < at(starts, taster + 1); i++) sum += at(direction, i - from) * at(residuals, i)
      squares += sum * sum
    }
    const df = (expected * expected) / variance
    return { se: Math.sqrt(squares), df: expected > 0 && Number.isFinite(df) && df > 0 ? df : null }
  }
}

/** The directions in which a taster's working covariance only stretches, and the design turned into them. */
interface WorkingBasis {
  /** eigenvalues of V */
  readonly values: Float64Array
  /** its vectors, in columns */
  readonly vectors: Float64Array
  /** vectorsᵀ X, size × p */
  readonly turned: Float64Array
}

const NO_BASIS: WorkingBasis = {
  values: new Float64Array(0),
  vectors: new Float64Array(0),
  turned: new Float64Array(0),
}

function workingBasis(
  { size, rows, roots, cupOf }: TasterPattern,
  { residual, taster, tasterByCup }: WorkingVariances,
  p: number,
): WorkingBasis {
  const covariance = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const shared = taster + (cupOf[i] === cupOf[j] ? tasterByCup : 0)
      covariance[i * size + j] = at(roots, i) * at(roots, j) * shared + (i === j ? residual : 0)
    }
  }
  const { values, vectors } = symmetricEigen(covariance, size)
  const turned = new Float64Array(size * p)
  for (let k = 0; k < size; k++) {
    for (let i = 0; i < size; i++) {
      const weight = at(vectors, i * size + k)
      for (let j = 0; j < p; j++) turned[k * p + j] = at(turned, k * p + j) + weight * at(rows, i * p + j)
    }
  }
  return { values, vectors, turned }
}

/** Turned into the same directions, A W X M: what a combination of effects takes from this taster's residuals. */
function patternSpread({ values, turned }: WorkingBasis, inverse: SquareMatrix, size: number, p: number): Float64Array {
  const reach = Float64Array.from(values, Math.sqrt)
  const fitted = new Float64Array(size * p)
  for (let k = 0; k < size; k++) {
    for (let j = 0; j < p; j++) {
      let sum = 0
      for (let l = 0; l < p; l++) sum += at(turned, k * p + l) * at(inverse, l * p + j)
      fitted[k * p + j] = sum
    }
  }
  const left = new Float64Array(size * size)
  for (let k = 0; k < size; k++) {
    for (let m = 0; m < size; m++) {
      let explained = 0
      for (let j = 0; j < p; j++) explained += at(fitted, k * p + j) * at(turned, m * p + j)
      left[k * size + m] = at(reach, k) * ((k === m ? at(values, k) : 0) - explained) * at(reach, m)
    }
  }
  const root = inverseRoot(left, values, size)
  const spread = new Float64Array(size * p)
  for (let k = 0; k < size; k++) {
    for (let m = 0; m < size; m++) {
      const weight = (at(reach, k) * at(root, k * size + m)) / at(reach, m)
      for (let j = 0; j < p; j++) spread[k * p + j] = at(spread, k * p + j) + weight * at(fitted, m * p + j)
    }
  }
  return spread
}

/** G^(−½), without the directions that the design explains altogether: a cup that one taster alone scored. */
function inverseRoot(matrix: Float64Array, values: Float64Array, size: number): Float64Array {
  const eigen = symmetricEigen(matrix, size)
  const root = new Float64Array(size * size)
  for (let e = 0; e < size; e++) {
    let whole = 0
    for (let k = 0; k < size; k++) whole += (at(eigen.vectors, k * size + e) * at(values, k)) ** 2
    const value = at(eigen.values, e)
    if (!(value > 1e-7 * whole)) continue
    const weight = 1 / Math.sqrt(value)
    for (let k = 0; k < size; k++) {
      const own = weight * at(eigen.vectors, k * size + e)
      for (let m = 0; m < size; m++) root[k * size + m] = at(root, k * size + m) + own * at(eigen.vectors, m * size + e)
    }
  }
  return root
}

function residualScores(
  patterns: readonly TasterPattern[],
  patternOf: Int32Array,
  starts: Int32Array,
  scores: Float64Array,
  beta: Float64Array,
): Float64Array {
  const fitted = patterns.map(({ rows, size }) => timesVector(rows, beta, size, beta.length))
  const residuals = Float64Array.from(scores)
  for (let taster = 0; taster < patternOf.length; taster++) {
    const own = fitted[at(patternOf, taster)] ?? beta
    const from = at(starts, taster)
    for (let i = from; i < at(starts, taster + 1); i++) residuals[i] = at(residuals, i) - at(own, i - from)
  }
  return residuals
}

function addOuter(sum: SquareMatrix, x: ArrayLike<number>, weight: number, size: number): void {
  for (let i = 0; i < size; i++) {
    const left = weight * at(x, i)
    if (left === 0) continue
    for (let j = 0; j < size; j++) sum[i * size + j] = at(sum, i * size + j) + left * at(x, j)
  }
}

/** @returns A x, A being rows × columns */
function timesVector(matrix: Float64Array, x: ArrayLike<number>, rows: number, columns: number): Float64Array {
  const product = new Float64Array(rows)
  for (let i = 0; i < rows; i++) {
    let sum = 0
    for (let j = 0; j < columns; j++) sum += at(matrix, i * columns + j) * at(x, j)
    product[i] = sum
  }
  return product
}

/** Reads a place that the loops above guarantee to exist. */
function at(numbers: ArrayLike<number>, place: number): number {
  return numbers[place] ?? lost()
}
