import { expect, test } from 'vitest'
import { pooledSpread } from '@/lib/stats/plan/pooled-spread'

test('panels count by their degrees of freedom', () => {
  // by hand: (10 · 4 + 30 · 1) / 40 = 1.75
  expect(
    pooledSpread([
      { variance: 4, df: 10 },
      { variance: 1, df: 30 },
    ]),
  ).toEqual({ sd: Math.sqrt(1.75), df: 40 })
})

test('nothing known is not no spread', () => {
  expect(pooledSpread([])).toBeNull()
  expect(pooledSpread([{ variance: 0, df: 12 }])).toBeNull()
  expect(() => pooledSpread([{ variance: -1, df: 3 }])).toThrow(RangeError)
})
