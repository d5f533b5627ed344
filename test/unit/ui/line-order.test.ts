import { expect, test } from 'vitest'
import { insertedBelow, moved, withCopyOf } from '@/app/(house)/trials/[trialId]/edit/line-order'

test('a line moves a place, and the ends stay where they are', () => {
  expect(moved([3, 0, 2], 0, -1)).toEqual([0, 3, 2])
  expect(moved([3, 0, 2], 0, 1)).toEqual([3, 2, 0])
  expect(moved([3, 0, 2], 3, -1)).toEqual([3, 0, 2])
  expect(moved([3, 0, 2], 2, 1)).toEqual([3, 0, 2])
})

test('a line is put in below another', () => {
  expect(insertedBelow([3, 0, 2], 0, 4)).toEqual([3, 0, 4, 2])
})

test('a copy stands below its line with all that was typed, what was weighed apart; removed lines are gone', () => {
  const typed = {
    name: 'A',
    lines: [
      { part: 'ingredient:honey', amount: '20', weighed: '20.1', contains: ['milk', 'eggs'] },
      { part: 'ingredient:removed' },
      { part: 'ingredient:milk', amount: '60', unit: 'ml' },
    ],
  }
  expect(withCopyOf(typed, [2, 0], 0)).toEqual({
    name: 'A',
    lines: [
      { part: 'ingredient:milk', amount: '60', unit: 'ml', place: '0' },
      { part: 'ingredient:honey', amount: '20', weighed: '20.1', contains: ['milk', 'eggs'], place: '1' },
      { part: 'ingredient:honey', amount: '20', weighed: '', contains: ['milk', 'eggs'], place: '2' },
    ],
  })
})
