import { expect, test } from 'vitest'
import { incompleteBeta } from '@/lib/stats/distribution/incomplete-beta'

test('a power has a closed form, also where the tail is 1e-290', () => {
  expect(incompleteBeta(0.01, 145, 1, false) / 1e-290).toBeCloseTo(1, 9)
  expect(incompleteBeta(0.99, 1, 140, true) / 0.01 ** 140).toBeCloseTo(1, 9)
  expect(incompleteBeta(0.3, 2, 1, false)).toBeCloseTo(0.09, 15)
})

test('the ends are 0 and 1', () => {
  expect([incompleteBeta(0, 2, 3, false), incompleteBeta(1, 2, 3, false), incompleteBeta(0, 2, 3, true)]).toEqual([
    0, 1, 1,
  ])
})
