import { expect, test } from 'vitest'
import { apartRow } from '@/lib/panel/keep-apart'

test.each([4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 16])('in a square of %i, the cups on marks 0 and d never meet', (n) => {
  const { row, apart } = apartRow(n)
  expect(row.toSorted((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, mark) => mark))
  for (let shift = 0; shift < n; shift += 1) {
    const shifted = row.map((mark) => (mark + shift) % n)
    expect(Math.abs(shifted.indexOf(0) - shifted.indexOf(apart))).toBeGreaterThan(1)
  }
})

test('of three cups, two cannot be kept apart in a square', () => {
  expect(() => apartRow(3)).toThrow('at least four cups, got 3')
})
