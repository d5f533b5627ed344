import fc from 'fast-check'
import { expect, test } from 'vitest'
import { difference, differenceOfTasters } from '@/lib/stats/difference/difference-test'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'

const LEVEL = { level: 0.95 }

test('p lies in [0, 1], falls as more are right, and reaches 1 − level exactly from the critical number on', () => {
  fc.assert(
    fc.property(fc.constantFrom(...PROTOCOLS), fc.integer({ min: 1, max: 40 }), (protocol, total) => {
      let last = 1.1
      for (let correct = 0; correct <= total; correct++) {
        const { p, critical } = difference({ protocol, correct, total }, LEVEL)
        expect(p).toBeLessThanOrEqual(last)
        expect(p).toBeLessThanOrEqual(1)
        expect(p <= 0.05).toBe(critical !== null && correct >= critical)
        last = p
      }
    }),
    { numRuns: 10 },
  )
})

test('similar exactly when the upper limit of the share who can tell lies at or below the limit', () => {
  for (let correct = 10; correct <= 40; correct++) {
    const { similarity } = difference({ protocol: 'triangle', correct, total: 60, limit: 0.3 }, LEVEL)
    expect(similarity?.similar).toBe((similarity?.upper ?? 1) <= 0.3)
  }
})

test('everybody right: no estimate, a lower limit, and a note', () => {
  const answer = difference({ protocol: 'triangle', correct: 12, total: 12 }, LEVEL)
  expect(answer.dPrime).toMatchObject({ estimate: null, se: null })
  expect(answer.dPrime.interval[0]).toBeGreaterThan(0)
  expect(answer.dPrime.interval[1]).toBeNull()
  expect(answer.notes.join(' ')).toContain('Everybody')
})

test('too few tasters for significance: critical is null, with a note', () => {
  const answer = difference({ protocol: 'duo-trio', correct: 3, total: 4 }, LEVEL)
  expect(answer.critical).toBeNull()
  expect(answer.notes.join(' ')).toContain('4 tasters')
})

test('below guessing: 0 without a direction, negative with one, and nobody right has an upper limit only', () => {
  expect(difference({ protocol: 'duo-trio', correct: 8, total: 30 }, LEVEL)).toMatchObject({
    distinguishing: { estimate: 0, interval: [0, 0] },
    dPrime: { estimate: 0, se: null, interval: [0, 0] },
  })
  expect(difference({ protocol: 'two-afc', correct: 8, total: 30 }, LEVEL).dPrime.estimate).toBeLessThan(0)
  const none = difference({ protocol: 'two-afc', correct: 0, total: 30 }, LEVEL).dPrime
  expect(none).toMatchObject({ estimate: null, se: null })
  expect(none.interval[0]).toBeNull()
  expect(none.interval[1]).toBeLessThan(0)
})

test.each([
  [() => difference({ protocol: 'triangle', correct: 5, total: 4 }, LEVEL), /got 5/],
  [() => difference({ protocol: 'triangle', correct: 0, total: 0 }, LEVEL), /got 0/],
  [() => difference({ protocol: 'triangle', correct: 1, total: 4 }, { level: 95 }), /got 95/],
  [() => difference({ protocol: 'triangle', correct: 1, total: 4, limit: 1 }, LEVEL), /got 1/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(RangeError)
  expect(ask).toThrow(message)
})

test('tasters who all got as many right do not show how far tasters differ: no error of d-prime, and a word why', () => {
  const alike = differenceOfTasters({ protocol: 'triangle', right: [2, 2, 2, 2], each: 3 }, { level: 0.95 })
  expect(alike.dPrime).toMatchObject({ se: null, interval: null })
  expect(alike.dPrime.estimate).toBeGreaterThan(0)
  expect(alike.notes.join()).toMatch(/no standard error of d-prime: the tasters’ shares do not differ/)
  const luck = differenceOfTasters({ protocol: 'triangle', right: [1, 0, 1, 1], each: 3 }, { level: 0.95 })
  expect(luck.dPrime).toMatchObject({ estimate: 0, se: null })
})
