/**
 * Power of one planned claim: alpha divided by the comparisons of the plan, paired, n − 1 degrees of freedom.
 * Made      make/planned-power.R: R 4.2.2's own power.t.test (type = "paired", strict = TRUE), every n tried; n exactly, powers
 *           to 1e-7
 */
import { expect, test } from 'vitest'
import reference from './data/planned-power.json'
import type { PlanKind } from '@/lib/stats/liking/claim-plan'
import { tastersForAcceptance, tastersForNotWorse } from '@/lib/stats/plan/score-power'

test.each(reference.better)('$plan of $cups cups, sd $sd, difference $difference', (row) => {
  const question = { ...row, plan: row.plan as PlanKind, alpha: 0.05 }
  const least = tastersForAcceptance(question, { power: 0.8 })
  expect(least.n).toBe(row.n)
  expect(Math.abs(least.power - row.power)).toBeLessThan(1e-7)
  expect(Math.abs(tastersForAcceptance(question, { n: 24 }).power - row.powerAt24)).toBeLessThan(1e-7)
})

test.each(reference.notWorse)('not worse by half a point, $plan of $cups cups, truth $truth', (row) => {
  const question = { sd: 1.5, margin: 0.5, alpha: 0.05, truth: row.truth, plan: row.plan as PlanKind, cups: row.cups }
  const least = tastersForNotWorse(question, { power: 0.8 })
  expect(least.n).toBe(row.n)
  expect(Math.abs(least.power - row.power)).toBeLessThan(1e-7)
})
