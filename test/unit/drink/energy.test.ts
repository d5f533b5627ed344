import { expect, test } from 'vitest'
import { KILOJOULES, atwaterEnergy } from '@/lib/drink/energy'

test('protein and carbohydrate bring 4 kcal a gram and fat 9 (Atwater general factors)', () => {
  expect(atwaterEnergy({ protein: 1, carbohydrate: 0, fat: 0 })).toBe(4)
  expect(atwaterEnergy({ protein: 0, carbohydrate: 1, fat: 0 })).toBe(4)
  expect(atwaterEnergy({ protein: 0, carbohydrate: 0, fat: 1 })).toBe(9)
})

test('whole milk by the general factors comes within 2 kcal of the table (USDA NDB 01077: 61 kcal)', () => {
  // 3.15 protein, 4.80 carbohydrate, 3.25 fat; the table uses factors of its own.
  expect(Math.abs(atwaterEnergy({ protein: 3.15, carbohydrate: 4.8, fat: 3.25 }) - 61)).toBeLessThan(2)
})

test('a kilocalorie is 4.184 kJ and negative grams are refused', () => {
  expect(KILOJOULES).toBe(4.184)
  expect(() => atwaterEnergy({ protein: -1, carbohydrate: 0, fat: 0 })).toThrow('got -1')
})
