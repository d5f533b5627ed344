import { expect, test } from 'vitest'
import { restrictedCriterion, restrictedDerivatives } from '@/lib/stats/model/restricted-likelihood'
import { varianceStrata } from '@/lib/stats/model/variance-strata'

/** Unequal repeats: three tasters, two cups, columns intercept, second cup, score. */
const cells: readonly (readonly [taster: number, cup: number, scores: readonly number[]])[] = [
  [0, 0, [5, 6]],
  [0, 1, [7]],
  [1, 0, [4]],
  [1, 1, [4, 6, 5]],
  [2, 0, [8, 7]],
  [2, 1, [9, 6]],
]
const flat = cells.flatMap(([taster, cup, scores]) => scores.map((score) => ({ taster, cup, score })))
const design = {
  rows: Float64Array.from(flat.flatMap(({ cup, score }) => [1, cup, score])),
  width: 3,
  tasterOf: Int32Array.from(flat, ({ taster }) => taster),
  cupOf: Int32Array.from(flat, ({ cup }) => cup),
}
const strata = varianceStrata(design, true)
const at = [1.1, 0.7, 0.4]

test('gradient and second derivatives are those of the deviance, by differences', () => {
  const step = 1e-4
  const deviance = (shift: readonly number[]) =>
    restrictedCriterion(
      strata,
      at.map((v, r) => v + (shift[r] ?? 0)),
      3,
    )?.deviance ?? NaN
  const unit = (r: number, size: number) => at.map((_, s) => (s === r ? size : 0))
  const sum = (a: readonly number[], b: readonly number[]) => a.map((v, i) => v + (b[i] ?? 0))
  const curve = restrictedDerivatives(strata, at, 3)
  for (const r of [0, 1, 2]) {
    const slope = (deviance(unit(r, step)) - deviance(unit(r, -step))) / (2 * step)
    // central differences: error of order step² times the third derivative
    expect(Math.abs((curve?.gradient[r] ?? NaN) - slope)).toBeLessThan(1e-6)
    for (const s of [0, 1, 2]) {
      const bend =
        (deviance(sum(unit(r, step), unit(s, step))) -
          deviance(sum(unit(r, step), unit(s, -step))) -
          deviance(sum(unit(r, -step), unit(s, step))) +
          deviance(sum(unit(r, -step), unit(s, -step)))) /
        (4 * step * step)
      expect(Math.abs((curve?.hessian[r]?.[s] ?? NaN) - bend)).toBeLessThan(1e-5)
    }
  }
})

test('with all variance in the residual the criterion is that of ordinary least squares', () => {
  // −2 log restricted likelihood at σ²: (n − p) log(2πσ²) + log|XᵀX| + RSS/σ²; cups have 5 and 6 scores, |XᵀX| = 30
  const mean = (cup: number) => {
    const own = flat.filter((row) => row.cup === cup)
    return own.reduce((a, { score }) => a + score, 0) / own.length
  }
  const rss = flat.reduce((a, { cup, score }) => a + (score - mean(cup)) ** 2, 0)
  const sigma = 1.3
  const want = (11 - 2) * Math.log(2 * Math.PI * sigma) + Math.log(30) + rss / sigma
  expect(restrictedCriterion(strata, [sigma, 0, 0], 3)?.deviance).toBeCloseTo(want, 10)
})

test('variances without any residual give no answer', () => {
  expect(restrictedCriterion(strata, [0, 1, 1], 3)).toBeNull()
})
