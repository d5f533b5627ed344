import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { SCENARIOS, tally, type Scenario, type Tally } from '../simulation/panels'

/**
 * Intervals hold the truth as often as they say, and panels without differences raise no more alarms than they may.
 * The long run (5 000 panels of each kind, test/simulation/coverage.ts) is checked in; a short one runs here.
 */
const long = JSON.parse(readFileSync(new URL('../simulation/coverage.json', import.meta.url), 'utf8')) as {
  readonly level: number
  readonly results: readonly Tally[]
}

test('over 5 000 panels of each kind intervals hold 95 ± 1 % and at most 5.9 % raise a false alarm', () => {
  expect(long.results.map(({ name }) => name)).toEqual(SCENARIOS.map(({ name }) => name))
  for (const { name, panels, differences, means, falseAlarms } of long.results) {
    expect(panels).toBe(5000)
    expect(Math.abs(differences - 0.95), `${name}: differences`).toBeLessThanOrEqual(0.01)
    expect(Math.abs(means - 0.95), `${name}: means`).toBeLessThanOrEqual(0.01)
    expect(falseAlarms, `${name}: false alarms`).toBeLessThanOrEqual(0.059)
  }
})

/** An incomplete panel costs five times a whole one, so fewer of them are poured. */
const panelsOf = ({ cups, perTaster }: Scenario) => (perTaster < cups ? 80 : 200)

for (const scenario of SCENARIOS) {
  const panels = panelsOf(scenario)
  test(`${scenario.name}: ${panels} panels with another seed stay within four standard errors`, () => {
    // of 200 panels the standard error of the false alarms is √(0.05 · 0.95 / 200) = 1.5 %, of 80 it is 2.4 %; the intervals
    // of one panel go together, so theirs is taken no smaller than one interval a panel would have
    const reach = 4 * Math.sqrt((0.05 * 0.95) / panels)
    const { differences, means, falseAlarms } = tally(scenario, panels, 7)
    expect(Math.abs(differences - 0.95)).toBeLessThan(reach)
    expect(Math.abs(means - 0.95)).toBeLessThan(reach)
    expect(falseAlarms).toBeLessThan(0.05 + reach)
  })
}
