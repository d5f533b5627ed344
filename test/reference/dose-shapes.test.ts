/**
 * The shape of liking over a dose, where tasters differ in their slope and where somebody missed a dose.
 * Made   make/dose-shapes.R, R 4.2.2: t.test of the tasters' own coefficients; lme4 and clubSandwich's CR2. p within 2e-4 of what passes
 *        through lme4's optimiser, 1e-9 otherwise
 */
import { expect, test } from 'vitest'
import made from './data/dose-shapes.json'
import { dose } from '@/lib/stats/dose/dose'
import { doseCurve } from '@/lib/stats/dose/dose-curve'

const cases = made.cases.map((one) => ({
  ...one,
  scores: one.rows.map(([taster, amount, score]) => ({
    taster: String(taster),
    dose: Number(amount),
    score: Number(score),
  })),
}))

test.each(cases)('a panel that R calls $shape', ({ scores, shape }) => {
  expect(dose(scores, { level: 0.95 }).shape).toBe(shape)
})

test.each(cases.slice(6))('errors by tasters, $shape', ({ scores, bendP, slopeP }) => {
  const { byTasters } = doseCurve(scores)
  expect(Math.abs((byTasters?.bend.p ?? NaN) - bendP)).toBeLessThan(2e-4)
  expect(Math.abs((byTasters?.slope.p ?? NaN) - slopeP)).toBeLessThan(2e-4)
})
