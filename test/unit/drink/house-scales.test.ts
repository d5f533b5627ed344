import { expect, test } from 'vitest'
import { decimalsOf } from '@/lib/drink/house-scales'

// by hand, decimal notation
test.each([
  [0.001, 3],
  [0.01, 2],
  [0.05, 2],
  [0.1, 1],
  [0.5, 1],
  [1, 1],
  [5, 1],
])('a scale that shows %s g at least shows %i decimals here', (division, decimals) => {
  expect(decimalsOf(division)).toBe(decimals)
})
