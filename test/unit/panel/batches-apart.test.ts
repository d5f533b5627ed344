/** Two cups of one panel with two batches of one preparation: by hand. */
import { expect, test } from 'vitest'
import { batchesApart } from '@/lib/panel/batches-apart'

const cup = (name: string, ...batches: [string, number][]) => ({
  cup: name,
  batches: batches.map(([of, number]) => ({ name: of, number })),
})

test('one batch for all, or other preparations, is nothing to say', () => {
  expect(batchesApart([])).toEqual([])
  expect(batchesApart([cup('A', ['Date syrup', 3]), cup('B', ['Date syrup', 3]), cup('C')])).toEqual([])
  expect(batchesApart([cup('A', ['Date syrup', 3]), cup('B', ['Brew', 4])])).toEqual([])
})

test('two batches of one preparation are named with their cups, by number', () => {
  const cups = [
    cup('A', ['Date syrup', 4], ['Brew', 1]),
    cup('B', ['Date syrup', 3], ['Brew', 1]),
    cup('C', ['Date syrup', 4]),
  ]
  expect(batchesApart(cups)).toEqual([
    {
      name: 'Date syrup',
      batches: [
        { number: 3, cups: ['B'] },
        { number: 4, cups: ['A', 'C'] },
      ],
    },
  ])
  // within one cup too: two lines, two batches
  expect(batchesApart([cup('A', ['Date syrup', 4], ['Date syrup', 3])])).toHaveLength(1)
})
