/**
 * Difference tests with several answers from each taster.
 * Made   make/looks-and-repeats.R, R 4.2.2: binom.test over all answers, t.test of the tasters' own shares. Within 1e-12
 *        make/d-prime-of-tasters.R, R 4.2.2: clubSandwich's error of the share right by taster, numerical derivative of R's own
 *        psychometric functions; d-prime and its error within 1e-6. Beside it the bootstrap of tasters, 20 000 draws: within 4 %, its
 *        own error is 0.5 % and d-prime is curved in the share.
 */
import { expect, test } from 'vitest'
import tasters from './data/d-prime-of-tasters.json'
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

test.each(tasters.cases)(
  '$protocol, $each answers each: d-prime’s error is that of tasters who differ',
  ({ protocol, right, each, dPrime, se, bootstrap, asIfAlone }) => {
    const answer = differenceOfTasters({ protocol: protocol as Protocol, right, each }, { level: 0.95 })
    expect(answer.dPrime.estimate).toBeCloseTo(dPrime, 6)
    expect(answer.dPrime.se).toBeCloseTo(se, 6)
    expect(Math.abs((answer.dPrime.se ?? NaN) / bootstrap - 1)).toBeLessThan(0.04)
    // answers taken for independent would promise more than these tasters hold
    expect(answer.dPrime.se).toBeGreaterThan(asIfAlone)
  },
)
