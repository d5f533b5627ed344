import { lost } from '@/lib/base/lost'

/** Square matrices of the size of the fixed effects, row by row in one array. */
export type SquareMatrix = Float64Array

/** What a Cholesky factor is good for: the inverse and the logarithm of the determinant. */
export interface Inverted {
  readonly inverse: SquareMatrix
  readonly logDeterminant: number
}

/**
 * What is the inverse of this positive definite matrix, and the logarithm of its determinant?
 *
 *     A = L Lᵀ,   A⁻¹ = L⁻ᵀ L⁻¹,   log|A| = 2 Σ log Lᵢᵢ
 *
 * @param matrix  size × size, symmetric; only the lower triangle is read
 * @returns null when a pivot has lost all but 1e-12 of its diagonal: not positive definite as far as doubles can tell
 *
 * Source   Golub and Van Loan (2013), Matrix Computations, section 4.2.
 * Checked  test/unit/stats/algebra/positive-definite.test.ts
 * Limits   for a few dozen columns; the conditioning of the matrix is the caller's care.
 */
export function invertPositiveDefinite(matrix: SquareMatrix, size: number): Inverted | null {
  const lower = new Float64Array(size * size)
  let logDeterminant = 0
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let rest = at(matrix, i * size + j)
      for (let k = 0; k < j; k++) rest -= at(lower, i * size + k) * at(lower, j * size + k)
      if (i > j) {
        lower[i * size + j] = rest / at(lower, j * size + j)
        continue
      }
      if (!(rest > 1e-12 * at(matrix, j * size + j))) return null
      lower[j * size + j] = Math.sqrt(rest)
      logDeterminant += Math.log(rest)
    }
  }

  const half = new Float64Array(size * size)
  for (let j = 0; j < size; j++) {
    half[j * size + j] = 1 / at(lower, j * size + j)
    for (let i = j + 1; i < size; i++) {
      let sum = 0
      for (let k = j; k < i; k++) sum -= at(lower, i * size + k) * at(half, k * size + j)
      half[i * size + j] = sum / at(lower, i * size + i)
    }
  }

  const inverse = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0
      for (let k = i; k < size; k++) sum += at(half, k * size + i) * at(half, k * size + j)
      inverse[i * size + j] = sum
      inverse[j * size + i] = sum
    }
  }
  return { inverse, logDeterminant }
}

/**
 * Which columns of a cross-product matrix add nothing to the columns before them, and what solves the rest?
 *
 *     A x = b with the columns found dependent left at 0
 *
 * @param matrix  size × size, positive semi-definite
 * @param right   size numbers
 * @returns the solution and the positions of the dependent columns
 *
 * Source   Golub and Van Loan (2013), Matrix Computations, section 4.2, without pivoting so that earlier columns stay.
 * Checked  test/unit/stats/algebra/positive-definite.test.ts
 * Limits   a column counts as dependent when 1e-9 of its sum of squares is left.
 */
export function solveSemidefinite(
  matrix: SquareMatrix,
  right: Float64Array,
  size: number,
): { readonly solution: Float64Array; readonly dependent: readonly number[] } {
  const kept: number[] = []
  const dependent: number[] = []
  const lower = new Float64Array(size * size)
  const forward = new Float64Array(size)
  for (let j = 0; j < size; j++) {
    let pivot = at(matrix, j * size + j)
    let rest = at(right, j)
    for (const k of kept) {
      let value = at(matrix, j * size + k)
      for (const m of kept) {
        if (m >= k) break
        value -= at(lower, j * size + m) * at(lower, k * size + m)
      }
      value /= at(lower, k * size + k)
      lower[j * size + k] = value
      pivot -= value * value
      rest -= value * at(forward, k)
    }
    if (!(pivot > 1e-9 * at(matrix, j * size + j))) {
      dependent.push(j)
      continue
    }
    lower[j * size + j] = Math.sqrt(pivot)
    forward[j] = rest / Math.sqrt(pivot)
    kept.push(j)
  }

  const solution = new Float64Array(size)
  for (const j of kept.toReversed()) {
    let value = at(forward, j)
    for (const i of kept) if (i > j) value -= at(lower, i * size + j) * at(solution, i)
    solution[j] = value / at(lower, j * size + j)
  }
  return { solution, dependent }
}

/** @returns A B, all three size × size */
export function multiply(a: SquareMatrix, b: SquareMatrix, size: number): SquareMatrix {
  const product = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < size; k++) {
      const left = at(a, i * size + k)
      if (left === 0) continue
      for (let j = 0; j < size; j++) product[i * size + j] = at(product, i * size + j) + left * at(b, k * size + j)
    }
  }
  return product
}

/** @returns the trace of A B without forming it */
export function traceOfProduct(a: SquareMatrix, b: SquareMatrix, size: number): number {
  let sum = 0
  for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) sum += at(a, i * size + j) * at(b, j * size + i)
  return sum
}

/** @returns xᵀ A y */
export function quadratic(x: ArrayLike<number>, a: SquareMatrix, y: ArrayLike<number>, size: number): number {
  let sum = 0
  for (let i = 0; i < size; i++) {
    const left = at(x, i)
    if (left === 0) continue
    let row = 0
    for (let j = 0; j < size; j++) row += at(a, i * size + j) * at(y, j)
    sum += left * row
  }
  return sum
}

/** Reads a place that the loops above guarantee to exist. */
function at(numbers: ArrayLike<number>, place: number): number {
  return numbers[place] ?? lost()
}
