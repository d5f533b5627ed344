import { expect, test } from 'vitest'
import { UnusableReadings } from '@/lib/stats/outcome'
import { preferenceCounts, preferencePairs } from '@/lib/stats/choice/preference'

const answers = (list: readonly (readonly [string | null, ...string[]])[]) =>
  list.map(([preferred, ...others], i) => ({ taster: `t${i}`, preferred, others }))

test('nobody with a preference leaves shares and p empty, with a note', () => {
  const answer = preferenceCounts({ cup: 'a', other: 'b', preferred: 0, total: 4, none: 4 }, { level: 0.95 })
  expect(answer).toMatchObject({
    share: null,
    pTwoSided: null,
    intervalExact: null,
    criticalTwoSided: null,
    pTrinomial: 1,
  })
  expect(answer.notes).toContain('nobody had a preference: no share')
})

test('without an answer for neither there is no net preference', () => {
  expect(preferenceCounts({ cup: 'a', other: 'b', preferred: 7, total: 9, none: 0 }, { level: 0.95 })).toMatchObject({
    net: null,
    pTrinomial: null,
  })
})

test('the first label in natural order is the cup, whoever is named first', () => {
  const rows = answers([
    ['cup 10', 'cup 2'],
    ['cup 2', 'cup 10'],
    ['cup 10', 'cup 2'],
    [null, 'cup 10', 'cup 2'],
    [null],
  ])
  const answer = preferencePairs(rows, { level: 0.95 })
  expect(answer).toMatchObject({ cup: 'cup 2', other: 'cup 10', preferred: 1, total: 4, none: 1 })
  expect(answer.counts.missing).toBe(1)
  expect(preferencePairs(rows.toReversed(), { level: 0.95 })).toEqual(answer)
})

test('the other cup has the mirrored answer', () => {
  const there = preferenceCounts({ cup: 'a', other: 'b', preferred: 12, total: 20, none: 3 }, { level: 0.9 })
  const back = preferenceCounts({ cup: 'b', other: 'a', preferred: 5, total: 20, none: 3 }, { level: 0.9 })
  expect(back.pTwoSided).toBe(there.pTwoSided)
  expect(back.pTrinomial).toBe(there.pTrinomial)
  for (const name of ['intervalExact', 'intervalWilson', 'intervalAnytime'] as const) {
    expect(1 - (back[name]?.[1] ?? NaN)).toBeCloseTo(there[name]?.[0] ?? NaN, 9)
  }
})

test('looking as often as one likes costs width', () => {
  const { intervalAnytime, intervalExact } = preferenceCounts(
    { cup: 'a', other: 'b', preferred: 20, total: 30, none: 0 },
    { level: 0.95 },
  )
  expect(intervalAnytime?.[0]).toBeLessThan(intervalExact?.[0] ?? 0)
  expect(intervalAnytime?.[1]).toBeGreaterThan(intervalExact?.[1] ?? 1)
})

test('three cups: worths with mean zero, the fit, and ν where some prefer neither', () => {
  const rows = answers([
    ['A', 'B'],
    ['A', 'B'],
    ['B', 'A'],
    ['B', 'C'],
    ['B', 'C'],
    ['C', 'B'],
    ['A', 'C'],
    ['C', 'A'],
    [null, 'A', 'C'],
  ])
  const answer = preferencePairs(rows, { level: 0.95 })
  if (!('worth' in answer)) throw new Error('two cups')
  expect(answer.worth?.reduce((sum, { worth }) => sum + worth, 0)).toBeCloseTo(0, 12)
  expect(answer.ties?.nu).toBeGreaterThan(0)
  expect(answer.fit.df).toBe(3)
  expect(answer.counts).toEqual({ tasters: 9, cups: 3, answers: 9, none: 1, missing: 0 })
})

test('a cup that always wins takes the worths away and is named', () => {
  const answer = preferencePairs(
    answers([
      ['A', 'B'],
      ['A', 'C'],
      ['B', 'C'],
      ['C', 'B'],
    ]),
    { level: 0.95 },
  )
  expect(answer).toMatchObject({ worth: null, fit: { deviance: null, p: null }, ties: null })
  expect(answer.notes[0]).toContain('preferred to A')
})

test('what cannot be used is refused with the words that say why', () => {
  const ask = (rows: Parameters<typeof preferencePairs>[0]) => () => preferencePairs(rows, { level: 0.95 })
  expect(
    ask([
      { taster: 'x', preferred: 'A', others: ['B'] },
      { taster: 'x', preferred: null, others: ['B', 'A'] },
    ]),
  ).toThrow('taster x answers twice on A and B')
  expect(ask(answers([['A', 'A']]))).toThrow(UnusableReadings)
  expect(ask(answers([['A', 'B', 'C']]))).toThrow('two different cups')
  expect(ask([])).toThrow('got none')
  expect(
    ask(
      answers([
        ['A', 'B'],
        ['C', 'D'],
      ]),
    ),
  ).toThrow('A, B | C, D')
  expect(() => preferenceCounts({ cup: 'a', other: 'b', preferred: 8, total: 10, none: 3 }, { level: 0.95 })).toThrow(
    '8 preferred and 3',
  )
  expect(() => preferenceCounts({ cup: 'a', other: 'b', preferred: 1.5, total: 10, none: 3 }, { level: 0.95 })).toThrow(
    'got 1.5',
  )
})
