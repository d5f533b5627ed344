import { EigenvalueDecomposition, Matrix } from 'ml-matrix'

/** Eigenvalues below this share of the largest one are zeros with rounding in them. */
const NOTHING = 1e-10

export interface PseudoInverse {
  readonly inverse: number[][]
  readonly rank: number
}

/**
 * What undoes a symmetric matrix that leaves some directions out, as comparisons leave out the common level of all cups?
 *
 *     M⁺ = Σ v vᵀ / λ over the eigenpairs with λ ≠ 0
 *
 * @param matrix  symmetric, positive semidefinite, n × n
 * @returns       the Moore–Penrose inverse and how many directions it covers
 *
 * Source   Penrose (1955), Proc. Camb. Phil. Soc. 51, 406–413
 * Checked  test/unit/stats/algebra/pseudo-inverse.test.ts
 * Cost     n³
 */
export function pseudoInverse(matrix: readonly (readonly number[])[]): PseudoInverse {
  const n = matrix.length
  const eigen = new EigenvalueDecomposition(new Matrix(matrix.map((row) => [...row])), { assumeSymmetric: true })
  const largest = Math.max(0, ...eigen.realEigenvalues)
  const kept = eigen.realEigenvalues.flatMap((value, at) => (value > NOTHING * largest ? [{ value, at }] : []))
  const vectors = eigen.eigenvectorMatrix
  const entry = (i: number, j: number): number =>
    kept.reduce((sum, { value, at }) => sum + (vectors.get(i, at) * vectors.get(j, at)) / value, 0)
  return {
    inverse: Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => entry(i, j))),
    rank: kept.length,
  }
}
