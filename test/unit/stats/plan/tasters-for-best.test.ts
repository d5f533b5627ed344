import { expect, test } from 'vitest'
import { rehearse } from '@/lib/stats/plan/rehearse'
import { chanceOfBest, tastersForBest, type BestQuestion } from '@/lib/stats/plan/tasters-for-best'

const question: BestQuestion = { cups: 4, sd: 1.2, difference: 1, level: 0.95, seed: 1 }

test('of one panel it says what the whole rehearsal says, to the last claim', () => {
  // one panel is the same scores in both: a seed gives them taster by taster, cup by cup
  for (let seed = 1; seed <= 60; seed++) {
    for (const tasters of [5, 6, 24, 50]) {
      const one = { ...question, seed }
      expect(chanceOfBest(one, 1, tasters)[tasters]).toBe(rehearse({ ...one, tasters, plan: 'all' }, 1).aboveAll)
    }
  }
})

test('five tasters are too few, and two cups that differ by less take more', () => {
  const chances = chanceOfBest({ ...question, difference: 5 }, 50, 8)
  expect([...chances.slice(0, 6)]).toEqual([0, 0, 0, 0, 0, 0])
  expect(chances[8]).toBeGreaterThan(0.5)
  const far = tastersForBest({ ...question, difference: 2 }, 0.8, 200, 200)
  const near = tastersForBest(question, 0.8, 200, 200)
  expect(far.n).toBeLessThan(near.n ?? 0)
  expect(near.low).toBeLessThanOrEqual(near.n ?? 0)
  expect(near.high).toBeGreaterThanOrEqual(near.n ?? Infinity)
})

test('where so many tasters do not reach it, it says none', () => {
  expect(tastersForBest({ ...question, difference: 0.1 }, 0.8, 50, 60)).toMatchObject({
    n: null,
    low: null,
    high: null,
  })
})

test.each<[string, Partial<BestQuestion>]>([
  ['one cup', { cups: 1 }],
  ['no spread', { sd: 0 }],
  ['no difference', { difference: 0 }],
  ['a level of 1', { level: 1 }],
  ['a step below 0', { step: -1 }],
])('%s is not asked', (_, wrong) => {
  expect(() => chanceOfBest({ ...question, ...wrong }, 10, 10)).toThrow(RangeError)
})
