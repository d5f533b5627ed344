import fc from 'fast-check'
import { expect, test } from 'vitest'
import { betweenPanels, pooled } from '@/lib/stats/over-panels/between-panels'

test('equal errors: the mean, and both estimates are the excess of the sample variance', () => {
  const panels = [1, 2, 4, 7].map((difference) => ({ difference, variance: 0.5 }))
  // Sample variance of 1 2 4 7 is 7; less 0.5
  expect(pooled(panels, 0).estimate).toBe(3.5)
  expect(betweenPanels(panels, 'dersimonian-laird')).toBeCloseTo(6.5, 12)
  expect(betweenPanels(panels, 'reml')).toBeCloseTo(6.5, 10)
})

test('panels that agree do not vary; one panel cannot', () => {
  const alike = [1, 1.01, 0.99].map((difference) => ({ difference, variance: 1 }))
  for (const method of ['dersimonian-laird', 'reml'] as const) {
    expect(betweenPanels(alike, method)).toBe(0)
    expect(betweenPanels(alike.slice(0, 1), method)).toBe(0)
  }
})

test('REML follows the scale of the differences', () => {
  const panel = fc.record({ difference: fc.integer({ min: -9, max: 9 }), variance: fc.integer({ min: 1, max: 9 }) })
  fc.assert(
    fc.property(fc.array(panel, { minLength: 2, maxLength: 6 }), (panels) => {
      const tenfold = panels.map(({ difference, variance }) => ({
        difference: difference * 10,
        variance: variance * 100,
      }))
      expect(betweenPanels(tenfold, 'reml') / 100).toBeCloseTo(betweenPanels(panels, 'reml'), 6)
    }),
  )
})
