import { expect, test } from 'vitest'
import { brimOfWater, fitOf, floatingLine, volumeUnder } from '@/lib/drink/vessel'

test('a vessel that holds 998.2 g of water at 20 °C holds a litre, within 0.1 ml', () => {
  expect(Math.abs(brimOfWater(998.2, 20) - 1000)).toBeLessThan(0.1)
})

test('the brim is physics, the fill line a wish', () => {
  expect(fitOf(450, 473, 455)).toBe('fits')
  expect(fitOf(460, 473, 455)).toBe('over-fill-line')
  expect(fitOf(460, 473, null)).toBe('fits')
  expect(fitOf(474, 473, 455)).toBe('over-brim')
})

test('floating ice stands out of the liquid: the line is lower than with the ice held under', () => {
  expect(floatingLine(240, 257.7, 200)).toBeLessThan(volumeUnder(240, 200))
})

test('an empty or negative vessel is refused', () => {
  expect(() => brimOfWater(0, 20)).toThrow('got 0')
  expect(() => fitOf(1, 0, null)).toThrow('got 0')
  expect(() => volumeUnder(-1, 0)).toThrow('got -1')
  expect(() => floatingLine(0, 0, 10)).toThrow(RangeError)
})
