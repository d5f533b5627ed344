import fc from 'fast-check'
import { expect, test } from 'vitest'
import { aroundZero, NINE, percentOf, scaleOf } from '@/app/ui/plot-scale'

// Worked out by hand.
test.each([
  [[1.12, 1.48], 1.1, 1.5, [1.1, 1.2, 1.3, 1.4, 1.5]],
  [[0, 10], 0, 10, [0, 2, 4, 6, 8, 10]],
  [[3, 3], 3, 3.2, [3, 3.2]],
  [[0, 5e-324], 0, 0.05, [0, 0.05]],
  [[120, 480], 100, 500, [100, 200, 300, 400, 500]],
])('%j lie on %d to %d', (values, low, high, ticks) => {
  const scale = scaleOf(values)
  expect(scale.low).toBeCloseTo(low, 12)
  expect(scale.high).toBeCloseTo(high, 12)
  expect(scale.ticks.map((tick) => Number(tick.toFixed(6)))).toEqual(ticks)
})

test('whatever is to be shown lies on its scale, and the scale has steps', () => {
  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true, noDefaultInfinity: true })
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 12 }), (values) => {
      const scale = scaleOf(values)
      const room = 1e-9 * Math.max(1, ...values.map(Math.abs))
      for (const one of values) {
        expect(one).toBeGreaterThanOrEqual(scale.low - room)
        expect(one).toBeLessThanOrEqual(scale.high + room)
      }
      expect(scale.ticks.length).toBeGreaterThanOrEqual(2)
      expect(scale.ticks.length).toBeLessThanOrEqual(8)
    }),
  )
})

test('a value stands between the ends by its share, and beyond them at the end', () => {
  expect([1, 5, 9, 12, -3].map((value) => percentOf(value, NINE))).toEqual([0, 50, 100, 100, 0])
})

test('differences are shown on both sides of zero alike, by whole points', () => {
  expect(aroundZero([0.4, -1.2])).toEqual({ low: -2, high: 2, ticks: [-2, -1, 0, 1, 2] })
  expect(aroundZero([7.5]).ticks).toEqual([-8, -6, -4, -2, 0, 2, 4, 6, 8])
  expect(aroundZero([]).high).toBe(1)
})
