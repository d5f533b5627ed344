import { expect, test } from 'vitest'
import { connectedGroups } from '@/lib/stats/liking/connected-groups'

test('a chain of links makes one group', () => {
  expect(connectedGroups([0, 0, 1, 1], [0, 1, 1, 2], 2, 3)).toEqual({ left: [0, 0], right: [0, 0, 0], count: 1 })
})

test('what nothing links stays apart, numbered in the order of the left', () => {
  expect(connectedGroups([0, 1], [1, 0], 2, 3)).toEqual({ left: [0, 1], right: [1, 0, 2], count: 3 })
})
