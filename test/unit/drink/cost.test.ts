import { expect, test } from 'vitest'
import { breakEvenGlasses, costPerGram, glassCost, netOfTax, priceForShare } from '@/lib/drink/cost'

test('what is thrown away makes the rest dearer', () => {
  expect(costPerGram(10, 1000)).toBe(0.01)
  expect(costPerGram(10, 1000, 0.5)).toBe(0.02)
})

test('a glass that loses money never breaks even', () => {
  expect(breakEvenGlasses(100, 0)).toBeNull()
  expect(breakEvenGlasses(100, -1)).toBeNull()
  expect(breakEvenGlasses(100, 30)).toBe(4)
  expect(breakEvenGlasses(0, 30)).toBe(0)
})

test('tax on top of the net price gives the menu price back', () => {
  expect(netOfTax(3.5, 0.12) * 1.12).toBeCloseTo(3.5, 12)
  expect(glassCost(1, 0, 0)).toBe(1)
})

test('a price without a pack, and shares that cannot be, are refused', () => {
  expect(() => costPerGram(10, 0)).toThrow('a price needs a pack above 0 g, got 0')
  expect(() => costPerGram(-1, 10)).toThrow('got -1')
  expect(() => costPerGram(1, 10, 1.1)).toThrow('got 1.1')
  expect(() => priceForShare(1, 0)).toThrow('got 0')
  expect(() => netOfTax(-1, 0)).toThrow(RangeError)
  expect(() => glassCost(-1, 0, 0)).toThrow(RangeError)
})
