/**
 * Sugar against the guides.
 * Printed   WHO (2015): 10 % and 5 % of energy, 50 and 25 g at 2000 kcal and 4 kcal/g. US FDA Daily Value 50 g.
 * Computed  60 ml of one-to-one syrup, 36.9 g sugar, is 74 % of the FDA figure.
 */
import { expect, test } from 'vitest'
import { SUGAR_GUIDES, shareOfGuide } from '@/lib/drink/sugar'

test('the guides are those published', () => {
  expect(SUGAR_GUIDES).toEqual({ who: (0.1 * 2000) / 4, whoLower: (0.05 * 2000) / 4, fda: 50 })
})

test('60 ml of one-to-one syrup is 74 % of the Daily Value (computed)', () => {
  expect(Math.abs(100 * shareOfGuide(36.9, 'fda') - 74)).toBeLessThan(0.5)
})
