/**
 * Water activity of sucrose syrups.
 * Computed  from the cited formula (Norrish; constant from memory): 0.986 at 20 Brix and so on.
 * From memory  saturated sucrose about 0.85.
 */
import { expect, test } from 'vitest'
import { waterActivity } from '@/lib/drink/water-activity'

test('it equals the cited formula as computed, to three decimals', () => {
  const computed = [
    [20, 0.986],
    [40, 0.959],
    [50, 0.935],
    [55, 0.918],
    [60, 0.895],
    [65, 0.865],
    [70, 0.824],
  ] as const
  for (const [brix, activity] of computed) expect(Math.abs(waterActivity(brix) - activity)).toBeLessThan(0.0006)
})

test('a saturated syrup comes to about 0.85 (from memory)', () => {
  expect(Math.abs(waterActivity(67.1) - 0.85)).toBeLessThan(0.005)
})
