import { expect, test } from 'vitest'
import { jar } from '@/lib/stats/liking/just-about-right'

const rows = (list: readonly (readonly [number | null, number | null])[]) =>
  list.map(([attribute, liking]) => ({ attribute, liking }))

test('shares over the five points, gaps counted', () => {
  const answer = jar(
    rows([
      [1, 4],
      [3, 8],
      [3, 7],
      [5, 3],
      [null, 5],
      [2, null],
    ]),
    { level: 0.95 },
  )
  expect(answer.shares).toEqual([0.25, 0, 0.5, 0, 0.25])
  expect(answer.counts).toEqual({ tasters: 4, answers: 4, missing: 2 })
})

test('fewer than two on a side, or just right, is null with a note', () => {
  const answer = jar(
    rows([
      [1, 4],
      [3, 8],
      [3, 7],
    ]),
    { level: 0.95 },
  )
  expect(answer).toMatchObject({ tooLittle: null, tooMuch: null, justRight: { n: 2, mean: 7.5 } })
  expect(answer.notes).toHaveLength(2)
  expect(
    jar(
      rows([
        [1, 4],
        [1, 5],
        [3, 8],
      ]),
      { level: 0.95 },
    ),
  ).toMatchObject({ tooLittle: null, justRight: null })
  expect(jar([], { level: 0.95 })).toMatchObject({ shares: null, justRight: null })
})

test('liking that never differs has a drop but no test', () => {
  const answer = jar(
    rows([
      [1, 4],
      [2, 4],
      [3, 8],
      [3, 8],
    ]),
    { level: 0.95 },
  )
  expect(answer.tooLittle).toEqual({ n: 2, share: 0.5, meanDrop: 4, se: 0, df: null, interval: null, p: null })
})

test('row order is nothing; turning the scale exchanges the sides', () => {
  const list = rows([
    [1, 4],
    [2, 5],
    [3, 8],
    [3, 6],
    [4, 7],
    [5, 2],
    [4, 3],
  ])
  const answer = jar(list, { level: 0.9 })
  expect(jar(list.toReversed(), { level: 0.9 })).toEqual(answer)
  const turned = jar(
    list.map(({ attribute, liking }) => ({ attribute: 6 - (attribute ?? 0), liking })),
    { level: 0.9 },
  )
  expect(turned.tooMuch).toEqual(answer.tooLittle)
})

test('answers outside one to five are refused by value', () => {
  expect(() => jar(rows([[6, 4]]), { level: 0.95 })).toThrow('got 6')
  expect(() => jar(rows([[2.5, 4]]), { level: 0.95 })).toThrow('got 2.5')
})
