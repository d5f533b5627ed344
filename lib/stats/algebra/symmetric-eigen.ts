import { lost } from '@/lib/base/lost'

/** Eigenvalues with their unit vectors in the columns of a size × size matrix, row by row. */
export interface SymmetricEigen {
  readonly values: Float64Array
  readonly vectors: Float64Array
}

/**
 * Along which directions does a small symmetric matrix only stretch, and by how much?
 *
 *     A v = λ v, by Jacobi's rotations: each takes one pair of off-diagonal numbers to zero
 *
 * Of a positive definite matrix whose rows differ widely in size the small eigenvalues keep their digits, which
 * reduction to three diagonals loses: working covariances are such matrices.
 *
 * @param matrix  size × size, symmetric
 *
 * Source   Golub and Van Loan (2013), Matrix Computations, section 8.5; Demmel and Veselić (1992), SIAM J. Matrix Anal.
 *          Appl. 13(4), 1204–1245 (the small eigenvalues).
 * Checked  test/unit/stats/algebra/symmetric-eigen.test.ts
 * Cost     size³ a sweep, some six sweeps
 */
export function symmetricEigen(matrix: Float64Array, size: number): SymmetricEigen {
  const a = Float64Array.from(matrix)
  const vectors = new Float64Array(size * size)
  for (let i = 0; i < size; i++) vectors[i * size + i] = 1
  for (let sweep = 0; sweep < 40; sweep++) {
    let turned = false
    for (let p = 0; p < size - 1; p++) {
      for (let q = p + 1; q < size; q++) if (rotate(a, vectors, size, p, q)) turned = true
    }
    if (!turned) break
  }
  return { values: Float64Array.from({ length: size }, (_, i) => a[i * size + i] ?? lost()), vectors }
}

/** @returns whether there was anything left between p and q */
function rotate(a: Float64Array, vectors: Float64Array, size: number, p: number, q: number): boolean {
  const between = a[p * size + q] ?? lost()
  const [first, second] = [a[p * size + p] ?? lost(), a[q * size + q] ?? lost()]
  if (between === 0 || Math.abs(between) <= Number.EPSILON * Math.sqrt(Math.abs(first * second)) * 0.25) return false
  const lean = (second - first) / (2 * between)
  const t = (lean >= 0 ? 1 : -1) / (Math.abs(lean) + Math.sqrt(1 + lean * lean))
  const c = 1 / Math.sqrt(1 + t * t)
  const s = t * c
  for (let k = 0; k < size; k++) {
    if (k === p || k === q) continue
    const [left, right] = [a[k * size + p] ?? lost(), a[k * size + q] ?? lost()]
    a[k * size + p] = a[p * size + k] = c * left - s * right
    a[k * size + q] = a[q * size + k] = s * left + c * right
  }
  a[p * size + p] = first - t * between
  a[q * size + q] = second + t * between
  a[p * size + q] = a[q * size + p] = 0
  for (let k = 0; k < size; k++) {
    const [left, right] = [vectors[k * size + p] ?? lost(), vectors[k * size + q] ?? lost()]
    vectors[k * size + p] = c * left - s * right
    vectors[k * size + q] = s * left + c * right
  }
  return true
}
