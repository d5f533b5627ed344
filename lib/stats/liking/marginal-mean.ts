import { lost } from '@/lib/base/lost'
import type { SquareMatrix } from '../algebra/positive-definite'
import type { ScoreDesign } from './score-design'

/**
 * Which weights on the fixed effects give the mean of one level, everything else averaged?
 *
 *     intercept + the level's own effect + Σ over every other factor of (1/levels) · its effects
 *
 * Other factors count every level equally, however many scores it has; the cup tasted before sums to zero and drops out.
 *
 * @param level  place of the level in its factor, 0 for the base
 *
 * Source   Searle, Speed and Milliken (1980), Am. Stat. 34(4), 216–221 (population marginal means).
 * Checked  test/reference/acceptance-r-cases.test.ts (emmeans)
 */
export function marginalMean(design: ScoreDesign, factor: 'cup' | 'position', level: number): Float64Array {
  const weights = new Float64Array(design.width - 1)
  weights[0] = 1
  const levels = { cup: design.cups, session: design.sessions, position: design.positions }
  for (const name of ['cup', 'session', 'position'] as const) {
    const from = design.from[name]
    for (let k = 1; k < levels[name]; k++) {
      weights[from + k - 1] = name === factor ? Number(k === level) : 1 / levels[name]
    }
  }
  return weights
}

/** @returns the weights of level a less level b of the cups */
export function cupDifference(design: ScoreDesign, a: number, b: number): Float64Array {
  const weights = new Float64Array(design.width - 1)
  if (a > 0) weights[design.from.cup + a - 1] = 1
  if (b > 0) weights[design.from.cup + b - 1] = -1
  return weights
}

/**
 * Which combinations of effects say together that a factor changes nothing, everything else adjusted for?
 *
 *     beside other factors: each level less the base
 *     a factor alone: the rows of the unit upper triangle U in XᵀX = Uᵀ D U, each level against the levels after it
 *
 * Any basis gives the same F. Satterthwaite's denominator depends on it a little; these are the bases of lmerTest's type
 * III table, so that both programs say the same.
 *
 * @param gram  XᵀX of the design
 *
 * Source   Goodnight (1979), Am. Stat. 33(3), 149–158; Kuznetsova, Brockhoff and Christensen (2017), J. Stat. Softw. 82(13).
 * Checked  test/reference/acceptance-r-cases.test.ts
 */
export function factorContrasts(
  design: ScoreDesign,
  gram: SquareMatrix,
  factor: 'cup' | 'position' | 'previous',
): readonly Float64Array[] {
  const p = design.width - 1
  const from = design.from[factor]
  const levels = { cup: design.cups, position: design.positions, previous: design.previous }[factor]
  const alone = p === levels
  const upper = alone ? unitUpper(gram, p) : null
  return Array.from({ length: levels - 1 }, (_, k) => {
    const weights = new Float64Array(p)
    weights[from + k] = 1
    if (upper) for (let j = from + k; j < p; j++) weights[j] = upper[(from + k) * p + j] ?? lost()
    return weights
  })
}

/** Gauss elimination without exchanges, every row divided by its pivot. */
function unitUpper(gram: SquareMatrix, size: number): SquareMatrix {
  const left = Float64Array.from(gram)
  for (let k = 0; k < size; k++) {
    for (let i = k + 1; i < size; i++) {
      const share = (left[k * size + i] ?? lost()) / (left[k * size + k] ?? 1)
      for (let j = i; j < size; j++)
        left[i * size + j] = (left[i * size + j] ?? lost()) - share * (left[k * size + j] ?? lost())
    }
  }
  return left.map((value, i) => value / (left[Math.floor(i / size) * (size + 1)] ?? 1))
}
