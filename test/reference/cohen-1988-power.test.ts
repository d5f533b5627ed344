/**
 * Power of t tests.
 * Printed   Cohen (1988), Statistical Power Analysis, chapter 2: paired, d = 0.5, 34 pairs for power 0.80 (from memory)
 * Made      data/power_sample_size.json, R 4.2.2 and pwr 1.3.0 (`power.t.test(type = "paired", strict = TRUE)`); n exactly,
 *           powers to 1e-7
 */
import { expect, test } from 'vitest'
import reference from './data/power_sample_size.json'
import { tastersForAcceptance, tastersForNotWorse } from '@/lib/stats/plan/score-power'

/** The standard deviation of one score when that of a difference is 1. */
const SD = Math.SQRT1_2

test.each(reference.values.t)('paired, d $d, power $power', (row) => {
  const two = tastersForAcceptance(
    { sd: SD, difference: row.d, cups: 2, alpha: 0.05, plan: 'all' },
    { power: row.power },
  )
  expect(two.n).toBe(row.n_paired)
  expect(Math.abs(two.power - row.power_paired)).toBeLessThan(1e-7)
  const one = tastersForNotWorse({ sd: SD, margin: row.d, alpha: 0.05 }, { power: row.power })
  expect(one.n).toBe(row.n_paired_one_sided)
})

test.each(reference.values.hedonic)('difference $delta, standard deviation of differences $sdd', (row) => {
  const question = { sd: row.sdd * SD, difference: row.delta, cups: 2, alpha: 0.05, plan: 'all' as const }
  expect(tastersForAcceptance(question, { power: 0.8 }).n).toBe(row.n80)
  expect(tastersForAcceptance(question, { power: 0.9 }).n).toBe(row.n90)
})

test('34 pairs at d = 0.5 have the power R gives', () => {
  const { power } = tastersForAcceptance({ sd: SD, difference: 0.5, cups: 2, alpha: 0.05, plan: 'all' }, { n: 34 })
  expect(Math.abs(power - reference.values.paired_n34_d05)).toBeLessThan(1e-7)
})

test('a truth on the good side is added to the margin', () => {
  const shifted = tastersForNotWorse({ sd: 1, margin: 0.3, alpha: 0.05, truth: 0.2 }, { n: 40 }).power
  const plain = tastersForNotWorse({ sd: 1, margin: 0.5, alpha: 0.05 }, { n: 40 }).power
  expect(Math.abs(shifted - plain)).toBeLessThan(1e-12)
})
