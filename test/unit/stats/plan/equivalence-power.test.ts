/** Paired, standard deviation of a difference 1, margin 0.5, truth 0, one-sided 0.05: R 4.2.2, data/power_sample_size.json. */
import { expect, test } from 'vitest'
import { equivalencePower } from '@/lib/stats/plan/equivalence-power'

const power = (n: number, more: Partial<Parameters<typeof equivalencePower>[0]> = {}) =>
  equivalencePower({ se: 1 / Math.sqrt(n), df: n - 1, margin: 0.5, truth: 0, alpha: 0.05, ...more })

test.each([
  [20, 0.393463],
  [30, 0.696509],
  [40, 0.856212],
  [60, 0.970977],
])('%d tasters', (n, expected) => {
  expect(Math.abs(power(n) - expected)).toBeLessThan(1e-6)
})

test('a wider margin helps, a true difference hurts, and the sign of it does not matter', () => {
  expect(power(30, { margin: 0.7 })).toBeGreaterThan(power(30))
  expect(power(30, { truth: 0.3 })).toBeLessThan(power(30))
  expect(power(30, { truth: 0.3 })).toBeCloseTo(power(30, { truth: -0.3 }), 12)
})
