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

/** @returns one row of weights per column of a factor: together they say that it has no effect */
export function factorContrasts(design: ScoreDesign, factor: 'cup' | 'position' | 'previous'): readonly Float64Array[] {
  const levels = { cup: design.cups, position: design.positions, previous: design.previous }
  return Array.from({ length: levels[factor] - 1 }, (_, k) => {
    const weights = new Float64Array(design.width - 1)
    weights[design.from[factor] + k] = 1
    return weights
  })
}
