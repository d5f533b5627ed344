import { integratePanels } from '../distribution/gauss-legendre'
import { normalDensity, normalLower } from '../distribution/normal'
import { guessingShare, type Protocol } from './protocol'

/** The share of right answers at one distance, and how fast it rises there. */
export interface Psychometric {
  readonly share: number
  readonly slope: number
}

const ROOT_TWO = Math.SQRT2
const ROOT_THREE = Math.sqrt(3)
const ROOT_SIX = Math.sqrt(6)
const STEP = 0.1
const REACH = 9

/** ∫ φ(z) h(z) dz over the line, by the trapezoid rule, which is exact here to rounding. */
function overNormal(h: (z: number) => number): number {
  let sum = 0
  for (let i = -REACH / STEP; i <= REACH / STEP; i++) sum += normalDensity(i * STEP) * h(i * STEP)
  return STEP * sum
}

/** Triangle: the slope φ(δ/2)(2Φ(δ√3/2) − 1), δ = d√(2/3), summed from guessing in panels half a unit wide. */
function triangleShare(delta: number): number {
  return 1 / 3 + integratePanels(triangleSlope, 0, delta, Math.max(1, Math.ceil(2 * delta)))
}

function triangleSlope(delta: number): number {
  return normalDensity(delta / 2) * (2 * normalLower((delta * ROOT_THREE) / 2) - 1)
}

/**
 * How often is the answer right when the cups lie d standard deviations of one sensation apart?
 *
 *     two-afc    Φ(d/√2)
 *     three-afc  ∫ φ(z − d) Φ(z)² dz
 *     duo-trio   1 − Φ(a) − Φ(b) + 2 Φ(a) Φ(b),  a = d/√2, b = d/√6
 *     triangle   ⅓ + ∫₀^δ φ(x/2) (2 Φ(x√3/2) − 1) dx,  δ = d√(2/3); equals 2∫₀^∞ [Φ(δ − z√3) + Φ(−δ − z√3)] φ(z) dz
 *     tetrad     1 − 2 ∫ φ(z) [2 Φ(z) Φ(z − d) − Φ(z − d)²] dz
 *
 * @param protocol  the difference test
 * @param d         d-prime; below 0 only for the forced choices
 * @returns         share of right answers and its derivative in d
 *
 * Source   Frijters (1979), Brit. J. Math. Stat. Psych. 32, 229–241; Ennis (1993), J. Sensory Studies 8, 353–370;
 *          Ennis, Ennis, Palen and O'Mahony (1998) (tetrad)
 * Checked  test/reference/difference-test.test.ts
 * Limits   equal variances, independent sensations, no bias
 */
export function psychometric(protocol: Protocol, d: number): Psychometric {
  const a = d / ROOT_TWO
  const b = d / ROOT_SIX
  const delta = d * Math.sqrt(2 / 3)
  switch (protocol) {
    case 'two-afc':
      return { share: normalLower(a), slope: normalDensity(a) / ROOT_TWO }
    case 'three-afc':
      return {
        share: overNormal((z) => normalLower(z + d) ** 2),
        slope: overNormal((z) => 2 * normalLower(z + d) * normalDensity(z + d)),
      }
    case 'duo-trio':
      return {
        share: normalLower(a) * normalLower(b) + normalLower(-a) * normalLower(-b),
        slope:
          (normalDensity(a) * (2 * normalLower(b) - 1)) / ROOT_TWO +
          (normalDensity(b) * (2 * normalLower(a) - 1)) / ROOT_SIX,
      }
    case 'triangle':
      return { share: triangleShare(delta), slope: Math.sqrt(2 / 3) * triangleSlope(delta) }
    case 'tetrad':
      return {
        share: 1 - 2 * overNormal((z) => normalLower(z - d) * (2 * normalLower(z) - normalLower(z - d))),
        slope: 4 * overNormal((z) => normalDensity(z - d) * (normalLower(z) - normalLower(z - d))),
      }
  }
  return { share: guessingShare(protocol), slope: 0 }
}
