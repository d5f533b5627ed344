/**
 * Does it fit?
 * Common practice, no source   a 16 US fl oz vessel holds 60 ml syrup, 200 g ice, 60 ml milk, 120 ml coffee.
 * Computed  from displacement (ice 0.9167 g/ml, from memory): 458.2 ml, 15.0 ml to the brim; floating line 426.3 ml.
 */
import { expect, test } from 'vitest'
import { fitOf, floatingLine, volumeUnder } from '@/lib/drink/vessel'

const BRIM = 473.176473 // 16 US fl oz, NIST Handbook 44

test('the iced coffee of common practice fits its vessel with 15 ml left', () => {
  const volume = volumeUnder(60 + 60 + 120, 200)
  expect(Math.abs(volume - 458.2)).toBeLessThan(0.05)
  expect(Math.abs(BRIM - volume - 15)).toBeLessThan(0.05)
  expect(fitOf(volume, BRIM, null)).toBe('fits')
})

test('in a vessel of 16 imperial fluid ounces the same drink overflows (454.609 ml, NIST)', () => {
  expect(fitOf(volumeUnder(240, 200), 454.609, null)).toBe('over-brim')
})

test('with the ice floating the line stands at 426.3 ml (Archimedes, computed)', () => {
  expect(Math.abs(floatingLine(240, 257.7, 200) - 426.3)).toBeLessThan(0.1)
})
