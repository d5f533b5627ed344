import { expect, test } from 'vitest'
import { cupGroups } from '@/lib/stats/choice/cup-groups'

test('cups met by the same taster hang together, also through others', () => {
  expect(
    cupGroups(
      [
        [0, 1],
        [1, 3],
      ],
      5,
    ),
  ).toEqual([[0, 1, 3], [2], [4]])
  expect(
    cupGroups(
      [
        [2, 0],
        [1, 2],
      ],
      3,
    ),
  ).toEqual([[0, 1, 2]])
  expect(cupGroups([], 2)).toEqual([[0], [1]])
})
