import { expect, test } from 'vitest'
import { normalLower } from '@/lib/stats/distribution/normal'
import { quickNormalLower } from '@/lib/stats/distribution/normal-table'

test('the table with its series agrees with the slow way to 1e-15 everywhere', () => {
  for (let z = -9.6; z < 9.6; z += 0.000937) expect(Math.abs(quickNormalLower(z) - normalLower(z))).toBeLessThan(1e-15)
})

test('beyond the table it is 0 or 1', () => {
  expect([quickNormalLower(-40), quickNormalLower(-Infinity), quickNormalLower(12)]).toEqual([0, 0, 1])
})
