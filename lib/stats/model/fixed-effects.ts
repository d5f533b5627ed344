import type { SquareMatrix } from '../algebra/positive-definite'

/** A ratio of variances and its chance under no effect; null where it cannot be had. */
export interface FTest {
  readonly F: number | null
  readonly df1: number
  readonly df2: number | null
  readonly p: number | null
}

/** Fixed effects with what is needed to judge any linear combination c of them. */
export interface FixedEffects {
  readonly beta: Float64Array
  /** covariance of β, adjusted where the method adjusts it */
  readonly covariance: SquareMatrix
  /** degrees of freedom of cᵀβ; null where the variances carry no information on it */
  df(contrast: Float64Array): number | null
  /** joint test that every row's combination is zero */
  test(contrasts: readonly Float64Array[]): FTest
}

export type DegreesMethod = 'satterthwaite' | 'kenward-roger'
