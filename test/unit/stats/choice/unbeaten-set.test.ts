import { expect, test } from 'vitest'
import { unbeatenSet } from '@/lib/stats/choice/unbeaten-set'

test('a circle of wins has no unbeaten set', () => {
  expect(
    unbeatenSet([
      [false, true, false],
      [false, false, true],
      [true, false, false],
    ]),
  ).toBeNull()
})

test('two cups that beat each other and are never beaten by the third', () => {
  expect(
    unbeatenSet([
      [false, true, true],
      [true, false, false],
      [false, false, false],
    ]),
  ).toEqual([0, 1])
})
