import { expect, test } from 'vitest'
import { crystalsAt, sucroseSolubility } from '@/lib/drink/solubility'

test('warmer water holds more', () => {
  for (let t = 1; t <= 100; t++) expect(sucroseSolubility(t)).toBeGreaterThan(sucroseSolubility(t - 1))
})

test('two to one by mass crystallises in a refrigerator, one to one does not', () => {
  expect(crystalsAt(66.67, 5)).toBe('will-crystallise')
  expect(crystalsAt(66.6, 20)).toBe('near-limit')
  expect(crystalsAt(50, 5)).toBe('stays-clear')
})

test('temperatures and Brix that cannot be are refused', () => {
  expect(() => sucroseSolubility(101)).toThrow('got 101')
  expect(() => crystalsAt(101, 20)).toThrow('got 101')
})
