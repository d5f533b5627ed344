import { expect, test } from 'vitest'
import { fewFactorOutside } from '@/lib/stats/distribution/few-factor'
import { manyToOneOutside } from '@/lib/stats/distribution/many-to-one'

test('where one factor would do, two give the same answer: two routes to one number', () => {
  const loadings = [0.6, 0.75, 0.8, 0.5]
  const correlation = loadings.map((a, i) => loadings.map((b, j) => (i === j ? 1 : a * b)))
  for (const df of [6, 40, Infinity]) {
    const outside = fewFactorOutside(correlation, df)
    for (const q of [1.5, 2.5, 4])
      expect(Math.abs(outside(q) - manyToOneOutside(q, df, correlation))).toBeLessThan(5e-7)
  }
})
