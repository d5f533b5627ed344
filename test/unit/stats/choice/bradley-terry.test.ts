import { expect, test } from 'vitest'
import { bradleyTerry } from '@/lib/stats/choice/bradley-terry'

test('two cups: the log odds of being preferred, and no fit to test', () => {
  const fit = bradleyTerry([{ a: 0, b: 1, preferA: 9, preferB: 3, none: 0 }], 2)
  if ('unbeaten' in fit) throw new Error('no fit')
  expect(fit.worth[0]).toBeCloseTo(Math.log(3) / 2, 10)
  expect(fit).toMatchObject({ nu: null, df: 0, p: null })
})

test('two cups with ties: ν is none over the geometric mean of the preferences', () => {
  const fit = bradleyTerry([{ a: 0, b: 1, preferA: 9, preferB: 4, none: 3 }], 2)
  if ('unbeaten' in fit) throw new Error('no fit')
  expect(fit.nu).toBeCloseTo(3 / 6, 10)
})

test('a cup that always wins has no finite worth', () => {
  const pairs = [
    { a: 0, b: 1, preferA: 4, preferB: 0, none: 0 },
    { a: 0, b: 2, preferA: 3, preferB: 0, none: 0 },
    { a: 1, b: 2, preferA: 2, preferB: 2, none: 0 },
  ]
  expect(bradleyTerry(pairs, 3)).toMatchObject({ unbeaten: [0], deviance: null, p: null })
})

test('ties alone do not keep a cup that always wins or ties finite', () => {
  expect(bradleyTerry([{ a: 0, b: 1, preferA: 4, preferB: 0, none: 2 }], 2)).toHaveProperty('unbeaten')
  expect(bradleyTerry([{ a: 0, b: 1, preferA: 0, preferB: 0, none: 2 }], 2)).toHaveProperty('unbeaten')
})

test('a pair twice and a negative count are refused', () => {
  const pair = { a: 0, b: 1, preferA: 1, preferB: 1, none: 0 }
  expect(() => bradleyTerry([pair, pair], 2)).toThrow('occurs twice')
  expect(() => bradleyTerry([{ ...pair, none: -1 }], 2)).toThrow('got -1')
})
