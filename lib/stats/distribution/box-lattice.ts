import { normalLower, normalQuantile } from './normal'

/** Square roots of primes: irrational, and independent of each other over the fractions. */
const ROOTS = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29].map(Math.sqrt)

/**
 * By how much do two correlated normal boxes differ in probability? Both at the same points, so that most of the error
 * of the rule cancels when the matrices are alike.
 *
 *     P(|X_i| ≤ w for all i), X ~ N(0, first)  −  the same for second;
 *     each as a product of conditional probabilities, averaged over a Kronecker lattice with folded ends
 *
 * @param w        half-width of the box, > 0
 * @param first    lower Cholesky factor, m × m
 * @param second   lower Cholesky factor, m × m
 * @param points   how many points of the lattice
 * @param offset   where in the lattice to start, so that repeated calls use different points
 *
 * Source   Genz (1992), Numerical computation of multivariate normal probabilities, J. Comput. Graph. Stat. 1, 141–149
 * Checked  test/reference/mvtnorm-many-to-one.test.ts
 * Limits   the error falls roughly as 1/points, times the difference of the matrices
 */
export function boxDifference(
  w: number,
  first: readonly (readonly number[])[],
  second: readonly (readonly number[])[],
  points: number,
  offset: number,
): number {
  const dimensions = first.length - 1
  const uniform = new Float64Array(dimensions)
  let sum = 0
  for (let k = 0; k < points; k++) {
    for (let d = 0; d < dimensions; d++) {
      const at = ((offset + k + 0.5) * (ROOTS[d] ?? Math.PI)) % 1
      uniform[d] = 1 - Math.abs(2 * at - 1)
    }
    sum += conditionalProduct(w, first, uniform) - conditionalProduct(w, second, uniform)
  }
  return sum / points
}

function conditionalProduct(w: number, factor: readonly (readonly number[])[], uniform: Float64Array): number {
  const m = factor.length
  const y = new Float64Array(m)
  let product = 1
  for (let i = 0; i < m; i++) {
    const row = factor[i] ?? []
    let shift = 0
    for (let j = 0; j < i; j++) shift += (row[j] ?? 0) * (y[j] ?? 0)
    const own = row[i] ?? 0
    if (own === 0) {
      if (Math.abs(shift) > w) return 0
      continue
    }
    const low = normalLower((-w - shift) / own)
    const share = normalLower((w - shift) / own) - low
    product *= share
    if (product === 0) return 0
    if (i < m - 1) y[i] = normalQuantile(Math.min(1 - 1e-16, Math.max(1e-300, low + (uniform[i] ?? 0.5) * share)))
  }
  return product
}

/**
 * The lower triangular factor L with L Lᵀ = matrix; a pivot below 1e-12 counts as 0 (the contrast follows from others).
 *
 * @param matrix  m × m, symmetric, no negative eigenvalue
 *
 * Checked  test/unit/stats/distribution/box-lattice.test.ts
 */
export function choleskyFactor(matrix: readonly (readonly number[])[]): number[][] {
  const m = matrix.length
  const factor: number[][] = Array.from({ length: m }, () => new Array<number>(m).fill(0))
  for (let i = 0; i < m; i++) {
    const row = factor[i] ?? []
    for (let j = 0; j <= i; j++) {
      const other = factor[j] ?? []
      let rest = matrix[i]?.[j] ?? 0
      for (let k = 0; k < j; k++) rest -= (row[k] ?? 0) * (other[k] ?? 0)
      const pivot = other[j] ?? 0
      row[j] = i === j ? (rest > 1e-12 ? Math.sqrt(rest) : 0) : pivot === 0 ? 0 : rest / pivot
    }
  }
  return factor
}
