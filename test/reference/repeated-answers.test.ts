/**
 * Difference tests with several answers from each taster.
 * Made   make/looks-and-repeats.R, R 4.2.2: binom.test over all answers, t.test of the tasters' own shares. Within 1e-12
 */
import { expect, test } from 'vitest'
import made from './data/looks-and-repeats.json'
import { differenceOfTasters } from '@/lib/stats/difference/difference-test'
import type { Protocol } from '@/lib/stats/difference/protocol'

test.each(made.repeats)('$protocol, $each answers each', ({ protocol, right, each, p, estimate, low, high }) => {
  const answer = differenceOfTasters({ protocol: protocol as Protocol, right, each }, { level: 0.95 })
  expect(answer.p).toBeCloseTo(p, 12)
  expect(answer.distinguishing.estimate).toBeCloseTo(estimate, 12)
  expect(answer.distinguishing.interval?.[0]).toBeCloseTo(low, 10)
  expect(answer.distinguishing.interval?.[1]).toBeCloseTo(high, 10)
  expect(answer.dPrime.interval).toBeNull()
  expect(answer.similarity).toBeNull()
  expect(answer.counts).toMatchObject({ tasters: right.length, answers: right.length * each })
})
