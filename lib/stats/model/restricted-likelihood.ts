import { lost } from '@/lib/base/lost'
import {
  invertPositiveDefinite,
  multiply,
  quadratic,
  traceOfProduct,
  type SquareMatrix,
} from '../algebra/positive-definite'
import type { Stratum } from './variance-strata'

/** The restricted likelihood at one set of variances, without derivatives. */
export interface Criterion {
  /** −2 × restricted log-likelihood, 2π included */
  readonly deviance: number
  /** yᵀ P y: the weighted residual sum of squares */
  readonly residual: number
  /** generalised least squares estimates of the fixed effects */
  readonly beta: Float64Array
  /** their covariance Φ = (Xᵀ V⁻¹ X)⁻¹ for these variances */
  readonly phi: SquareMatrix
}

/** The same with everything that inference needs. Components r, s index the variances. */
export interface Derivatives extends Criterion {
  readonly gradient: readonly number[]
  /** observed: second derivatives of the deviance */
  readonly hessian: readonly (readonly number[])[]
  /** tr(P Gᵣ P Gₛ): expected second derivatives of the deviance */
  readonly expected: readonly (readonly number[])[]
  /** Dᵣ = Xᵀ V⁻¹ Gᵣ V⁻¹ X */
  readonly first: readonly SquareMatrix[]
  /** Eᵣₛ = Xᵀ V⁻¹ Gᵣ V⁻¹ Gₛ V⁻¹ X, symmetric part */
  readonly second: readonly (readonly SquareMatrix[])[]
}

/**
 * How well do these variances explain the scores, in lme4's constants?
 *
 *     d = log|V| + log|Xᵀ V⁻¹ X| + yᵀ P y + (n − p) log 2π,   P = V⁻¹ − V⁻¹ X Φ Xᵀ V⁻¹
 *
 * @param strata     from `varianceStrata`, width p + 1
 * @param variances  one per component, residual first and above zero
 * @returns null where Xᵀ V⁻¹ X cannot be inverted
 *
 * Source   Patterson and Thompson (1971), Biometrika 58(3), 545–554; Bates et al. (2015), J. Stat. Softw. 67(1), eq. 38–42.
 * Checked  test/reference/acceptance-r-cases.test.ts
 */
export function restrictedCriterion(
  strata: readonly Stratum[],
  variances: readonly number[],
  width: number,
): Criterion | null {
  const sum = new Float64Array(width * width)
  let logV = 0
  let n = 0
  for (const stratum of strata) {
    const weight = blockWeight(stratum, variances)
    if (!weight) return null
    logV += stratum.count * weight.logDeterminant
    n += stratum.count * stratum.size
    accumulate(sum, stratum, weight.inverse)
  }
  return solve(sum, logV, n, width)
}

/**
 * How does the restricted likelihood bend around these variances?
 *
 *     ∂d/∂σᵣ² = tr(P Gᵣ) − yᵀ P Gᵣ P y
 *     ∂²d/∂σᵣ²∂σₛ² = −tr(P Gᵣ P Gₛ) + 2 yᵀ P Gᵣ P Gₛ P y
 *
 * @returns as `restrictedCriterion`, with the derivatives
 *
 * Source   Gilmour, Thompson and Cullis (1995), Biometrics 51(4), 1440–1450, eq. 5–6.
 * Checked  test/unit/stats/model/restricted-likelihood.test.ts
 */
export function restrictedDerivatives(
  strata: readonly Stratum[],
  variances: readonly number[],
  width: number,
): Derivatives | null {
  const p = width - 1
  const components = variances.map((_, r) => r)
  const blank = () => new Float64Array(width * width)
  const sum = blank()
  const firstSums = components.map(blank)
  const secondSums = components.map(() => components.map(blank))
  const traces = components.map(() => 0)
  const crossTraces = components.map(() => components.map(() => 0))
  let logV = 0
  let n = 0

  for (const stratum of strata) {
    const { count, size } = stratum
    const weight = blockWeight(stratum, variances)
    if (!weight) return null
    logV += count * weight.logDeterminant
    n += count * size
    accumulate(sum, stratum, weight.inverse)
    const scaled = stratum.structure.map((g) => multiply(weight.inverse, g, size))
    scaled.forEach((vg, r) => {
      for (let i = 0; i < size; i++) add(traces, r, count * (vg[i * size + i] ?? lost()))
      const middle = multiply(vg, weight.inverse, size)
      accumulate(firstSums[r] ?? blank(), stratum, middle)
      scaled.forEach((vh, s) => {
        if (s > r) return
        const trace = count * traceOfProduct(vg, vh, size)
        const row = crossTraces[r] ?? []
        add(row, s, trace)
        accumulate(secondSums[r]?.[s] ?? blank(), stratum, symmetricPart(multiply(vh, middle, size), size))
      })
    })
  }

  const base = solve(sum, logV, n, width)
  if (!base) return null
  const { phi, beta } = base
  const c = new Float64Array(width)
  beta.forEach((value, j) => (c[j] = -value))
  c[p] = 1

  const first = firstSums.map((matrix) => corner(matrix, width))
  const phiFirst = first.map((matrix) => multiply(phi, matrix, p))
  const lean = firstSums.map((matrix) => {
    return Float64Array.from({ length: p }, (_, i) => {
      let value = 0
      for (let j = 0; j < width; j++) value += (matrix[i * width + j] ?? lost()) * (c[j] ?? lost())
      return value
    })
  })
  const gradient = components.map((r) => {
    let trace = traces[r] ?? lost()
    for (let i = 0; i < p; i++) trace -= phiFirst[r]?.[i * p + i] ?? lost()
    return trace - quadratic(c, firstSums[r] ?? blank(), c, width)
  })
  const lowSecond = secondSums.map((row) => row.map((matrix) => corner(matrix, width)))
  const second = components.map((r) =>
    components.map((s) => lowSecond[Math.max(r, s)]?.[Math.min(r, s)] ?? new Float64Array(p * p)),
  )
  const pair = (value: (r: number, s: number) => number) => components.map((r) => components.map((s) => value(r, s)))
  const expected = pair((r, s) => {
    const [high, low] = [Math.max(r, s), Math.min(r, s)]
    const trace = crossTraces[high]?.[low] ?? lost()
    const [a, b] = [phiFirst[r], phiFirst[s]]
    const e = second[r]?.[s]
    return a && b && e ? trace - 2 * traceOfProduct(phi, e, p) + traceOfProduct(a, b, p) : trace
  })
  const hessian = pair((r, s) => {
    const [high, low] = [Math.max(r, s), Math.min(r, s)]
    const [a, b] = [lean[r], lean[s]]
    const curve = quadratic(c, secondSums[high]?.[low] ?? blank(), c, width)
    return 2 * (curve - (a && b ? quadratic(a, phi, b, p) : 0)) - (expected[r]?.[s] ?? lost())
  })
  return { ...base, gradient, hessian, expected, first, second }
}

function solve(sum: Float64Array, logV: number, n: number, width: number): Criterion | null {
  const p = width - 1
  const inverted = invertPositiveDefinite(corner(sum, width), p)
  if (!inverted) return null
  const phi = inverted.inverse
  const right = Float64Array.from({ length: p }, (_, i) => sum[i * width + p] ?? lost())
  const beta = Float64Array.from({ length: p }, (_, i) => {
    let value = 0
    for (let j = 0; j < p; j++) value += (phi[i * p + j] ?? lost()) * (right[j] ?? lost())
    return value
  })
  const c = new Float64Array(width)
  beta.forEach((value, j) => (c[j] = -value))
  c[p] = 1
  const residual = Math.max(0, quadratic(c, sum, c, width))
  const deviance = logV + inverted.logDeterminant + residual + (n - p) * Math.log(2 * Math.PI)
  return { deviance, residual, beta, phi }
}

/** V⁻¹ and log|V| of one block of a stratum. */
function blockWeight({ size, structure }: Stratum, variances: readonly number[]) {
  const v = new Float64Array(size * size)
  structure.forEach((g, r) => {
    for (let i = 0; i < v.length; i++) v[i] = (v[i] ?? lost()) + (variances[r] ?? lost()) * (g[i] ?? lost())
  })
  return size === 1 ? scalarWeight(v[0] ?? lost()) : invertPositiveDefinite(v, size)
}

function scalarWeight(v: number) {
  return v > 0 ? { inverse: Float64Array.of(1 / v), logDeterminant: Math.log(v) } : null
}

/** Adds Σ coefficient[a, b] · zₐ zᵦᵀ over the blocks of a stratum; the coefficient is symmetric. */
function accumulate(sum: Float64Array, { size, products }: Stratum, coefficient: Float64Array) {
  let place = 0
  for (let a = 0; a < size; a++) {
    for (let b = a; b < size; b++) {
      const weight = coefficient[a * size + b] ?? lost()
      const product = products[place++]
      if (weight === 0 || !product) continue
      for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] ?? lost()) + weight * (product[i] ?? lost())
    }
  }
}

/** The block of the fixed effects, without the score's row and column. */
function corner(matrix: Float64Array, width: number): SquareMatrix {
  const p = width - 1
  const inner = new Float64Array(p * p)
  for (let i = 0; i < p; i++) inner.set(matrix.subarray(i * width, i * width + p), i * p)
  return inner
}

function symmetricPart(matrix: Float64Array, size: number): Float64Array {
  return matrix.map((value, i) => (value + (matrix[(i % size) * size + Math.floor(i / size)] ?? lost())) / 2)
}

function add(numbers: number[], place: number, value: number) {
  numbers[place] = (numbers[place] ?? lost()) + value
}
