import { expect, test } from 'vitest'
import { integratePanels } from '@/lib/stats/distribution/gauss-legendre'

test('a polynomial of degree 19 is exact in one panel', () => {
  expect(integratePanels((x) => 20 * x ** 19, 0, 1, 1)).toBeCloseTo(1, 14)
})

test('an exponential over many panels, and an empty stretch', () => {
  expect(integratePanels(Math.exp, -2, 3, 4)).toBeCloseTo(Math.exp(3) - Math.exp(-2), 12)
  expect(integratePanels(Math.exp, 1, 1, 3)).toBe(0)
})
