/**
 * Printed   smallest count for a two-sided 5 % preference, from the tables of ISO 5495 (numbers from memory, exact binomial in
 *           R 4.2.2 agrees); ISO 5495:2005/Amd 1:2016, 21 of 30 and 32 of 44 (data/paired_iso5495_examples.json).
 * Made      data/binomial_intervals.json (Newcombe 1998 table I); make/ranks-and-choices.R: binom.test, prop.test.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { preferenceCounts, preferencePairs } from '@/lib/stats/choice/preference'
import { expectAllNear, expectNear } from '../support/near'
import intervals from './data/binomial_intervals.json'
import paired from './data/paired_iso5495_examples.json'
import ties from './data/preference_with_ties.json'
import made from './data/ranks-and-choices.json'

const ask = (preferred: number, total: number, none = 0, level = 0.95) =>
  preferenceCounts({ cup: 'a', other: 'b', preferred, total, none }, { level })

test.each([
  [10, 9],
  [15, 12],
  [20, 15],
  [25, 18],
  [30, 21],
  [40, 27],
  [50, 33],
  [60, 39],
  [75, 47],
  [80, 50],
  [100, 61],
])('of %d tasters at least %d must prefer one cup', (n, least) => {
  expect(ask(0, n).criticalTwoSided).toBe(least)
})

test('five answers can never be significant, two-sided', () => {
  expect(ask(5, 5).criticalTwoSided).toBeNull()
  expect(ask(5, 5).notes.join()).toContain('no count can reach significance')
})

test.each(paired.values)('$x of $n as in the amendment', ({ x, n, p_one_sided, p_two_sided, cp95, wilson95 }) => {
  const answer = ask(x, n)
  expectNear(answer.pOneSided, p_one_sided, 1e-9)
  expectNear(answer.pTwoSided, p_two_sided, 1e-9)
  expectAllNear(answer.intervalExact, cp95, 1e-9)
  expectAllNear(answer.intervalWilson, wilson95, 1e-9)
})

test.each(intervals.values)('$x of $n: intervals and p', ({ x, n, wilson, clopper_pearson, p_two_vs_half }) => {
  const answer = ask(x, n)
  expectAllNear(answer.intervalExact, clopper_pearson, 1e-9)
  expectAllNear(answer.intervalWilson, wilson, 1e-9)
  expectNear(answer.pTwoSided, p_two_vs_half, 1e-12)
})

test.each(made.cases.binomial)('$x of $n agrees with binom.test and prop.test', ({ x, n, two, one, exact, wilson }) => {
  const answer = ask(x, n)
  expectNear(answer.pTwoSided, two, 1e-12)
  expectNear(answer.pOneSided, one, 1e-12)
  expectAllNear(answer.intervalExact, exact, 1e-9)
  expectAllNear(answer.intervalWilson, wilson, 1e-9)
})

test.each(ties.values)('$none without a preference: dropped for p, kept for the trinomial', (one) => {
  const total = one.prefer_a + one.prefer_b + one.none
  const answer = ask(one.prefer_a, total, one.none)
  expectNear(answer.pTwoSided, one.p_drop, 1e-9)
  expectNear(answer.pTrinomial, one.p_trinomial, 1e-9)
  expectNear(answer.net?.estimate, one.net, 1e-12)
  expectNear(answer.share, one.prefer_a / (one.prefer_a + one.prefer_b), 1e-12)
  const rows = Array.from({ length: total }, (_, i) => {
    const preferred = i < one.prefer_a ? 'a' : i < one.prefer_a + one.prefer_b ? 'b' : null
    return { taster: `${i}`, preferred, others: preferred === null ? ['b', 'a'] : [preferred === 'a' ? 'b' : 'a'] }
  })
  expect(preferencePairs(rows, { level: 0.95 })).toEqual(answer)
})
