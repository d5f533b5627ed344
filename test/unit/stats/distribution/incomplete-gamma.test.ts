import { expect, test } from 'vitest'
import { incompleteGamma } from '@/lib/stats/distribution/incomplete-gamma'

test('whole a: the upper tail is a sum of Poisson terms, on both sides of the change of method', () => {
  for (const a of [3, 20, 21, 60]) {
    for (const x of [a / 2, a, 1.5 * a]) {
      let term = Math.exp(-x)
      let sum = term
      for (let k = 1; k < a; k++) {
        term *= x / k
        sum += term
      }
      expect(Math.abs(incompleteGamma(x, a, true) / sum - 1)).toBeLessThan(1e-12)
      expect(Math.abs(incompleteGamma(x, a, false) + sum - 1)).toBeLessThan(1e-12)
    }
  }
})

test('at 0 everything lies above', () => {
  expect([incompleteGamma(0, 30, false), incompleteGamma(0, 30, true)]).toEqual([0, 1])
})
