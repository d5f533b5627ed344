import fc from 'fast-check'
import { expect, test } from 'vitest'
import { byLabel } from '@/lib/stats/label-order'

test('numbers inside labels count as numbers', () => {
  expect(['cup 10', 'cup 2', 'cup 1'].toSorted(byLabel)).toEqual(['cup 1', 'cup 2', 'cup 10'])
})

test('labels that look alike still have one order', () => {
  expect(byLabel('01', '1')).not.toBe(0)
  expect(Math.sign(byLabel('01', '1'))).toBe(-Math.sign(byLabel('1', '01')))
})

test('it is an order: same only for the same label, and turned round when the labels are', () => {
  fc.assert(
    fc.property(fc.string(), fc.string(), (a, b) => {
      expect(byLabel(a, b) === 0).toBe(a === b)
      expect(Math.sign(byLabel(a, b)) + Math.sign(byLabel(b, a))).toBe(0)
    }),
  )
})
