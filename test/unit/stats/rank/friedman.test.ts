import fc from 'fast-check'
import { expect, test } from 'vitest'
import { friedman, friedmanExact, isCountedSoon } from '@/lib/stats/rank/friedman'

const scores = fc.array(fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 3, maxLength: 3 }), {
  minLength: 1,
  maxLength: 6,
})

test('every p lies between 0 and 1, and W between 0 and 1', () => {
  fc.assert(
    fc.property(scores, (table) => {
      const { p, kendallW } = friedman(table)
      const exact = friedmanExact(table)
      for (const x of [p, kendallW, exact]) if (x !== null) expect(x >= 0 && x <= 1).toBe(true)
      expect(p === null).toBe(exact === null)
    }),
  )
})

test('the order of tasters and cups, and a constant added by one taster, change no p', () => {
  fc.assert(
    fc.property(scores, (table) => {
      const turned = table.toReversed().map((row, i) => row.toReversed().map((x) => x + 10 * i))
      expect(friedmanExact(turned)).toBe(friedmanExact(table))
      expect(friedman(turned).p ?? 0).toBeCloseTo(friedman(table).p ?? 0, 12)
    }),
  )
})

test('tasters who all agree have W = 1', () => {
  expect(
    friedman([
      [1, 2, 3],
      [4, 5, 9],
      [0, 1, 2],
    ]).kendallW,
  ).toBe(1)
})

test('where every taster ties everything, and for one cup or nobody, there is no statistic', () => {
  for (const table of [
    [
      [5, 5],
      [3, 3],
    ],
    [[4], [2]],
    [],
  ]) {
    expect(friedman(table)).toMatchObject({ chiSquared: null, p: null, kendallW: null })
    expect(friedmanExact(table)).toBeNull()
  }
})

test('rows of unequal length are refused', () => {
  expect(() => friedman([[1, 2], [1]])).toThrow('got 1')
})

test('what is counted soon can be counted, and what is not is left to chi-squared', () => {
  for (const [cups, most] of [
    [3, 100],
    [4, 36],
    [5, 12],
    [6, 6],
  ] as const) {
    expect([isCountedSoon(most, cups), isCountedSoon(most + 1, cups)]).toEqual([true, false])
    const turned = Array.from({ length: most }, (_, i) => Array.from({ length: cups }, (_, j) => (i + j) % cups))
    expect(friedmanExact(turned)).not.toBeNull()
  }
  expect(isCountedSoon(3, 7)).toBe(false)
})
