import { expect, test } from 'vitest'
import { spreadLabels } from '@/app/ui/spread-labels'

const tall = 10

test('labels that have room stand where they belong', () => {
  expect(
    spreadLabels(
      [
        { at: 80, tall },
        { at: 20, tall },
      ],
      0,
      100,
    ),
  ).toEqual([80, 20])
})

test('labels that meet step aside, in their own order, and stay between the ends', () => {
  const heights = [98, 97, 96, 5, 4]
  const placed = spreadLabels(
    heights.map((at) => ({ at, tall })),
    0,
    100,
  )
  const sorted = placed.toSorted((a, b) => a - b)
  for (const [i, at] of sorted.entries()) {
    expect(at - (sorted[i - 1] ?? -tall)).toBeGreaterThanOrEqual(tall)
    expect(at).toBeGreaterThanOrEqual(tall / 2)
    expect(at).toBeLessThanOrEqual(100 - tall / 2)
  }
  expect(placed.map((at) => sorted.indexOf(at))).toEqual([4, 3, 2, 1, 0])
})

test('no labels are no heights', () => {
  expect(spreadLabels([], 0, 100)).toEqual([])
})
