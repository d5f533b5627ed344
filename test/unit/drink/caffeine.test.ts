import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { caffeineOfDose } from '@/lib/drink/caffeine'

test('twice the dose is twice the caffeine, and the range stays around its middle', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1000, noNaN: true }),
      fc.double({ min: 0, max: 0.05, noNaN: true }),
      (d, c) => {
        const [one, two] = [caffeineOfDose(d, c, 0.95, 0.8), caffeineOfDose(2 * d, c, 0.95, 0.8)]
        expect(Math.abs(two.middle - 2 * one.middle)).toBeLessThan(1e-6)
        expect(one.low <= one.middle && one.middle <= one.high).toBe(true)
      },
    ),
  )
})

test('content in percent instead of a fraction is refused', () => {
  expect(() => caffeineOfDose(15, 1.15, 0.95, 0.8)).toThrow('got 1.15')
  expect(() => caffeineOfDose(-1, 0.01, 0.95, 0.8)).toThrow('got -1')
})
