/**
 * A planned panel played through the claims.
 * Made   data/planned-power.json: R's power.t.test; with one pair and scores neither rounded nor cut, what is found is that power.
 *        make/rehearsal.R: R's own panels, lmer and clubSandwich, R 4.2.2.
 * Within four simulation errors of both together.
 */
import { expect, test } from 'vitest'
import power from './data/planned-power.json'
import made from './data/rehearsal.json'
import type { PlanKind } from '@/lib/stats/liking/claim-plan'
import { rehearse } from '@/lib/stats/plan/rehearse'

const within = (share: number, n: number, other = Infinity) =>
  4 * Math.sqrt(share * (1 - share) * (1 / n + (other === Infinity ? 0 : 1 / other)) + 1e-6)

const powers = power.better.filter((row) => row.sd === 1.2 && row.difference === 1)

test.each(powers)('$plan of $cups cups: what is found at 24 tasters is R’s power', (row) => {
  const panels = 4000
  const { found } = rehearse({ ...row, plan: row.plan as PlanKind, tasters: 24, step: 0, level: 0.95, seed: 7 }, panels)
  expect(Math.abs(found - row.powerAt24)).toBeLessThan(within(row.powerAt24, panels))
})

test.each(made.cases)(
  '$tasters × $cups, $absent missing, divided by $divide: R finds as much',
  ({ panels: inR, found, coverage, anyFalse, ...row }) => {
    const panels = 1500
    const ours = rehearse({ ...row, plan: 'all', level: 0.95, seed: 11 }, panels)
    expect(Math.abs(ours.found - found)).toBeLessThan(within(found, panels, inR))
    expect(Math.abs(ours.coverage - coverage)).toBeLessThan(within(coverage, panels, inR))
    expect(Math.abs(ours.anyFalse - anyFalse)).toBeLessThan(within(Math.max(anyFalse, 0.01), panels, inR))
  },
)
