import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { SCENARIOS, tally, type Tally } from '../simulation/panels'

/**
 * All joint intervals of a panel hold the truth as often as they promise, and no more panels claim what is not true.
 * The long run (5 000 panels of each kind, test/simulation/coverage.ts) is checked in; a short one runs here.
 * Truth: the expected difference of the scores as rounded and cut (normal distribution function, checked against
 * published tables in test/reference). Bounds: 5 % and 95 % by the definition of the level, 0.9 points of tolerance.
 */
const long = JSON.parse(readFileSync(new URL('../simulation/coverage.json', import.meta.url), 'utf8')) as {
  readonly results: readonly Tally[]
}
const MOST_FALSE = 0.059
const LEAST_COVERED = 0.941

test('over 5 000 panels of each kind at most 5.9 % claim what is not true, and all intervals hold in at least 94.1 %', () => {
  expect(long.results.map(({ name }) => name)).toEqual(SCENARIOS.map(({ name }) => name))
  for (const { name, panels, claimed, falseClaims, coverage, falseByMargin } of long.results) {
    expect(panels).toBe(5000)
    expect(claimed, name).toBeGreaterThan(4500)
    expect(falseClaims, `${name}: false claims`).toBeLessThanOrEqual(MOST_FALSE)
    expect(coverage, `${name}: joint coverage`).toBeGreaterThanOrEqual(LEAST_COVERED)
    expect(falseByMargin ?? 0, `${name}: false claims by the margin`).toBeLessThanOrEqual(MOST_FALSE)
  }
})

const SHORT = 60

test.each(SCENARIOS)(`$name: ${SHORT} panels with another seed stay within four standard errors`, (scenario) => {
  // of 60 panels the standard error of the false claims is √(0.05 · 0.95 / 60) = 2.8 %
  const reach = 4 * Math.sqrt((0.05 * 0.95) / SHORT)
  const { falseClaims, coverage } = tally(scenario, SHORT, 7)
  expect(falseClaims).toBeLessThan(MOST_FALSE + reach)
  expect(coverage).toBeGreaterThan(LEAST_COVERED - reach)
})
