import { lost } from '@/lib/base/lost'
import { EigenvalueDecomposition, Matrix } from 'ml-matrix'
import { fUpper } from '../distribution/f'
import type { FixedEffects, FTest } from './fixed-effects'
import { componentInverse, type MixedFit } from './mixed-model'
import { multiply, quadratic } from '../algebra/positive-definite'

/**
 * How many degrees of freedom carry a contrast of fixed effects, after Satterthwaite?
 *
 *     ν = 2 v² / (gᵀ A g),   v = cᵀ Φ c,   gᵣ = ∂v/∂σᵣ² = cᵀ Φ Dᵣ Φ c,   A = 2 H⁻¹
 *
 * H is the observed second derivative of the restricted deviance over the variances above zero; a variance at zero is
 * left out, as in the model without that term. Several contrasts at once: diagonalise L Φ Lᵀ, E = Σ νₘ/(νₘ − 2),
 * denominator 2 E / (E − q), and 2 where some νₘ ≤ 2.
 *
 * @returns df null where H is not positive definite
 *
 * Source   Satterthwaite (1946), Biometrics Bull. 2(6), 110–114; Fai and Cornelius (1996), J. Stat. Comput. Simul. 54,
 *          363–378; Kuznetsova, Brockhoff and Christensen (2017), J. Stat. Softw. 82(13).
 * Checked  test/reference/acceptance-r-cases.test.ts
 * Limits   with several contrasts the denominator depends a little on how they are coded: here each level against the first.
 */
export function satterthwaite({ beta, curve, variances }: MixedFit): FixedEffects {
  const p = beta.length
  const { phi } = curve
  const free = variances.flatMap((value, r) => (value > 0 ? [r] : []))
  const inverse = componentInverse(curve.hessian, free)
  const slopes = free.map((r) => multiply(multiply(phi, curve.first[r] ?? new Float64Array(p * p), p), phi, p))

  const df = (contrast: Float64Array) => {
    if (!inverse) return null
    const variance = quadratic(contrast, phi, contrast, p)
    const gradient = slopes.map((slope) => quadratic(contrast, slope, contrast, p))
    const spread = 2 * quadratic(gradient, inverse, gradient, free.length)
    return spread > 0 ? (2 * variance * variance) / spread : null
  }

  const test = (contrasts: readonly Float64Array[]): FTest => {
    const q = contrasts.length
    const joint = contrasts.map((a) => contrasts.map((b) => quadratic(a, phi, b, p)))
    const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(new Matrix(joint), {
      assumeSymmetric: true,
    })
    let sum = 0
    const each: (number | null)[] = []
    realEigenvalues.forEach((variance, m) => {
      const turned = new Float64Array(p)
      contrasts.forEach((row, i) => {
        const weight = eigenvectorMatrix.get(i, m)
        row.forEach((value, j) => (turned[j] = (turned[j] ?? lost()) + weight * value))
      })
      const estimate = turned.reduce((total, value, j) => total + value * (beta[j] ?? lost()), 0)
      sum += (estimate * estimate) / variance
      each.push(df(turned))
    })
    const F = sum / q
    const df2 = jointDf(each)
    return { F, df1: q, df2, p: df2 === null ? null : fUpper(F, q, df2) }
  }

  return { beta, covariance: phi, df, test }
}

function jointDf(each: readonly (number | null)[]): number | null {
  const known = each.filter((value) => value !== null)
  const [first] = known
  if (first === undefined || known.length < each.length) return null
  if (known.every((value) => Math.abs(value - first) < 1e-8 * first)) return first
  if (known.some((value) => value <= 2)) return 2
  const expectation = known.reduce((sum, value) => sum + value / (value - 2), 0)
  return (2 * expectation) / (expectation - known.length)
}
