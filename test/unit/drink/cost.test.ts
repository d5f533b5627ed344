import { expect, test } from 'vitest'
import { breakEvenGlasses, costPerGram, glassCost, netOfTax, packsFor, priceForShare } from '@/lib/drink/cost'

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

test('packs are opened whole, and one that just suffices is one', () => {
  // by hand: 660 of 250 g; 600 of 600 g; 485 g where 97 % of 500 g can be used, and a gram more
  expect([packsFor(660, 250), packsFor(600, 600), packsFor(485, 500, 0.97), packsFor(486, 500, 0.97)]).toEqual([
    3, 1, 1, 2,
  ])
  expect(packsFor(60 * 0.1 * 100, 600)).toBe(1)
  for (const [grams, pack, share] of [
    [-1, 1, 1],
    [1, 0, 1],
    [1, 1, 0],
  ] as const)
    expect(() => packsFor(grams, pack, share)).toThrow(RangeError)
})
