import { expect, test } from 'vitest'
import { dividingCups } from '@/lib/stats/liking/dividing-cups'

const rowsOf = (scores: Readonly<Record<string, readonly (number | null)[]>>) =>
  Object.entries(scores).flatMap(([cup, of]) => of.map((score, taster) => ({ taster: String(taster), cup, score })))

// A, B, C are 6 or 7 for everybody; D is 9 for four tasters and 2 for four. Worked by hand: D less the mean of the others is
// 9 − 19/3 = 2⅔ (A 6, B 6, C 7) four times and 2 − 19/3 = −4⅓ four times; mean −5/6, each 3.5 away from it, so the standard
// deviation is 3.5·√(8/7) = 3.741657.
const divided = {
  A: [6, 6, 6, 6, 6, 6, 6, 6],
  B: [6, 6, 6, 6, 6, 6, 6, 6],
  C: [7, 7, 7, 7, 7, 7, 7, 7],
  D: [9, 9, 9, 9, 2, 2, 2, 2],
}

test('a cup that half like and half do not is named, with how many each way and how far apart', () => {
  const [one, ...others] = dividingCups(rowsOf(divided))
  expect(others).toEqual([])
  expect(one).toMatchObject({ cup: 'D', tasters: 8, up: 4, down: 4 })
  expect(one?.spread).toBeCloseTo(3.5 * Math.sqrt(8 / 7), 12)
  // the others hold D in their mean of three: 7/3 apart between the halves, so 7/6·√(8/7)
  expect(one?.usual).toBeCloseTo((7 / 6) * Math.sqrt(8 / 7), 12)
})

test('a cup that everybody likes less divides nobody', () => {
  expect(dividingCups(rowsOf({ ...divided, D: [2, 2, 2, 3, 2, 2, 2, 3] }))).toEqual([])
})

test.each([
  ['two cups', { A: divided.A, D: divided.D }],
  ['five tasters', Object.fromEntries(Object.entries(divided).map(([cup, scores]) => [cup, scores.slice(2, 7)]))],
  ['nobody who scored', { A: [null], B: [null], C: [null] }],
])('%s are too few to say so', (_, scores) => {
  expect(dividingCups(rowsOf(scores))).toEqual([])
})
