import { lost } from '@/lib/base/lost'
import { fUpper } from '../distribution/f'
import type { FixedEffects, FTest } from './fixed-effects'
import { componentInverse, type MixedFit } from './mixed-model'
import { invertPositiveDefinite, multiply, quadratic, traceOfProduct } from '../algebra/positive-definite'

/**
 * How far must standard errors and F be stretched because the variances were estimated, after Kenward and Roger?
 *
 *     Φ_A = Φ + 2 Φ {Σᵣₛ Wᵣₛ (Eᵣₛ − Dᵣ Φ Dₛ)} Φ,   W = 2 [tr(P Gᵣ P Gₛ)]⁻¹
 *
 * A single contrast has 2 v² / (gᵀ W g) degrees of freedom; several at once follow the scaled F with A₁, A₂, B and ρ of
 * the paper. The information is the expected one and covers every variance, one estimated at zero included.
 *
 * @returns df null where the information cannot be inverted
 *
 * Source   Kenward and Roger (1997), Biometrics 53(3), 983–997; Halekoh and Højsgaard (2014), J. Stat. Softw. 59(9).
 * Checked  test/reference/acceptance-r-cases.test.ts
 */
export function kenwardRoger({ beta, curve, variances }: MixedFit): FixedEffects {
  const p = beta.length
  const { phi, first, second, expected } = curve
  const all = variances.map((_, r) => r)
  const half = componentInverse(expected, all)
  const weight = (r: number, s: number) => (half ? 2 * (half[r * all.length + s] ?? lost()) : 0)
  const phiFirst = first.map((matrix) => multiply(phi, matrix, p))
  const slopes = phiFirst.map((matrix) => multiply(matrix, phi, p))

  const inner = new Float64Array(p * p)
  for (const r of all) {
    for (const s of all) {
      const twice = multiply(first[r] ?? inner, phiFirst[s] ?? inner, p)
      for (let i = 0; i < inner.length; i++) {
        inner[i] = (inner[i] ?? lost()) + weight(r, s) * ((second[r]?.[s]?.[i] ?? lost()) - (twice[i] ?? lost()))
      }
    }
  }
  const bias = multiply(multiply(phi, inner, p), phi, p)
  const covariance = phi.map((value, i) => {
    return value + (bias[i] ?? lost()) + (bias[(i % p) * p + Math.floor(i / p)] ?? lost())
  })

  const df = (contrast: Float64Array) => {
    const variance = quadratic(contrast, phi, contrast, p)
    const gradient = slopes.map((slope) => quadratic(contrast, slope, contrast, p))
    const spread = half ? 2 * quadratic(gradient, half, gradient, all.length) : 0
    return spread > 0 ? (2 * variance * variance) / spread : null
  }

  const test = (contrasts: readonly Float64Array[]): FTest => {
    const q = contrasts.length
    const nothing = { F: null, df1: q, df2: null, p: null }
    const plain = jointInverse(contrasts, phi, p)
    const adjusted = jointInverse(contrasts, covariance, p)
    if (!half || !plain || !adjusted) return nothing
    const estimates = contrasts.map((row) => row.reduce((sum, value, j) => sum + value * (beta[j] ?? lost()), 0))
    const wald = quadratic(estimates, adjusted, estimates, q) / q

    const reduced = slopes.map((slope) => multiply(plain, joint(contrasts, slope, p), q))
    const trace = reduced.map((matrix) => contrasts.reduce((sum, _, i) => sum + (matrix[i * q + i] ?? lost()), 0))
    let [a1, a2] = [0, 0]
    for (const r of all) {
      for (const s of all) {
        a1 += weight(r, s) * (trace[r] ?? lost()) * (trace[s] ?? lost())
        a2 += weight(r, s) * traceOfProduct(reduced[r] ?? plain, reduced[s] ?? plain, q)
      }
    }
    const { df2, scaling } = scaledF(q, a1, a2)
    if (!(df2 > 0) || !Number.isFinite(df2)) return nothing
    const F = scaling * wald
    return { F, df1: q, df2, p: fUpper(F, q, df2) }
  }

  return { beta, covariance, df, test }
}

/** The paper's matching of two moments: page 987, with the zero that rounding hides restored. */
function scaledF(q: number, a1: number, a2: number): { df2: number; scaling: number } {
  if (q === 1) return { df2: 2 / a2, scaling: 1 }
  const b = (a1 + 6 * a2) / (2 * q)
  const g = ((q + 1) * a1 - (q + 4) * a2) / ((q + 2) * a2)
  const bottom = 3 * q + 2 * (1 - g)
  const [c1, c2, c3] = [g / bottom, (q - g) / bottom, (q + 2 - g) / bottom]
  const v0 = Math.abs(1 + c1 * b) < 1e-10 ? 0 : 1 + c1 * b
  const v1 = 1 - c2 * b
  const shrink = Math.abs(v1) < 1e-14 ? 1 : (1 - a2 / q) / v1
  const rho = (shrink * shrink * v0) / (1 - c3 * b) / q
  const df2 = 4 + (q + 2) / (q * rho - 1)
  const scaling = Math.abs(df2 - 2) < 1e-2 ? 1 : (df2 * (1 - a2 / q)) / (df2 - 2)
  return { df2, scaling }
}

function joint(contrasts: readonly Float64Array[], matrix: Float64Array, p: number): Float64Array {
  return Float64Array.from(contrasts.flatMap((a) => contrasts.map((b) => quadratic(a, matrix, b, p))))
}

function jointInverse(contrasts: readonly Float64Array[], matrix: Float64Array, p: number) {
  return invertPositiveDefinite(joint(contrasts, matrix, p), contrasts.length)?.inverse ?? null
}
