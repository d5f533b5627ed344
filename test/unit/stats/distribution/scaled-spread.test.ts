import { expect, test } from 'vitest'
import { spreadRule } from '@/lib/stats/distribution/scaled-spread'

test.each([0.5, 1, 2.7, 10, 300, 1e6])(
  '%s degrees of freedom: weights add to 1 and s² has its mean and variance',
  (df) => {
    const moment = (k: number) => spreadRule(df).reduce((sum, { ratio, weight }) => sum + weight * ratio ** k, 0)
    expect(Math.abs(moment(0) - 1)).toBeLessThan(1e-12)
    expect(Math.abs(moment(2) - 1)).toBeLessThan(1e-12)
    expect(Math.abs(moment(4) / (1 + 2 / df) - 1)).toBeLessThan(1e-11)
  },
)

test('infinitely many leave a single ratio', () => {
  expect(spreadRule(Infinity)).toEqual([{ ratio: 1, weight: 1 }])
})

test('degrees of freedom and a step above 0 are asked for', () => {
  expect(() => spreadRule(0)).toThrow(/got 0/)
  expect(() => spreadRule(3, -1)).toThrow(/got -1/)
})
