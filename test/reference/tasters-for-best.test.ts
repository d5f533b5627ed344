/**
 * How many tasters let the best of some cups stand alone, rehearsed.
 * Made   make/tasters-for-best.R: R's own panels, 20 000 of each kind, paired t intervals held together by Bonferroni, R 4.2.2; and
 *        data/planned-power.json, R's power.t.test: with two cups, neither rounded nor cut, the best alone is one claim.
 * Within four simulation errors of both together.
 */
import { expect, test } from 'vitest'
import power from './data/planned-power.json'
import made from './data/tasters-for-best.json'
import { chanceOfBest, tastersForBest } from '@/lib/stats/plan/tasters-for-best'

const PANELS = 3000

test.each(made.cases)(
  '$cups cups, $difference apart, $tasters tasters: R’s panels show as many',
  ({ tasters, alone, ...row }) => {
    const ours = chanceOfBest({ ...row, level: 0.95, seed: 3 }, PANELS, tasters)[tasters] ?? NaN
    const error = Math.sqrt(alone * (1 - alone) * (1 / PANELS + 1 / made.panels))
    expect(Math.abs(ours - alone)).toBeLessThan(4 * error)
  },
)

test.each(power.better.filter(({ cups }) => cups === 2))(
  'two cups $difference apart, spread $sd: R’s number of tasters is among those the rehearsal leaves open',
  ({ sd, difference, n, powerAt24 }) => {
    const question = { cups: 2, sd, difference, step: 0, level: 0.95, seed: 5 }
    const found = tastersForBest(question, 0.8, PANELS, 200)
    // twice as wide: four errors instead of two
    const [low, mid, high] = [found.low ?? NaN, found.n ?? NaN, found.high ?? NaN]
    expect(n).toBeGreaterThanOrEqual(mid - 2 * (mid - low) - 1)
    expect(n).toBeLessThanOrEqual(mid + 2 * (high - mid) + 1)
    const at24 = chanceOfBest(question, PANELS, 24)[24] ?? NaN
    expect(Math.abs(at24 - powerAt24)).toBeLessThan(4 * Math.sqrt((powerAt24 * (1 - powerAt24)) / PANELS) + 1e-3)
  },
)
