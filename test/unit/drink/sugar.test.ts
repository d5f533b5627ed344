import { expect, test } from 'vitest'
import { RELATIVE_SWEETNESS, shareOfGuide, sweetnessEquivalent } from '@/lib/drink/sugar'

test('every factor lies within the range its table quotes', () => {
  for (const { factor, low, high } of Object.values(RELATIVE_SWEETNESS)) {
    expect(low <= factor && factor <= high).toBe(true)
  }
})

test('sucrose is its own measure, and parts add up', () => {
  const parts = [
    { grams: 30, factor: RELATIVE_SWEETNESS.sucrose?.factor ?? 0 },
    { grams: 10, factor: 0.5 },
  ]
  expect(sweetnessEquivalent(parts)).toBe(35)
  expect(sweetnessEquivalent([])).toBe(0)
})

test('negative sugar is refused', () => {
  expect(() => shareOfGuide(-1, 'who')).toThrow('got -1')
  expect(() => sweetnessEquivalent([{ grams: -1, factor: 1 }])).toThrow('got -1')
})
