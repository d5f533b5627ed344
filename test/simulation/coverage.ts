/**
 * How often do the intervals hold the truth, and how often does a panel without differences raise an alarm?
 * Run: npx tsx test/simulation/coverage.ts [panels]   (5 000 of each kind without an argument; some minutes)
 * Writes test/simulation/coverage.json, which test/reference/coverage-of-intervals.test.ts reads.
 */
import { writeFileSync } from 'node:fs'
import { SCENARIOS, tally } from './panels'

const panels = Number(process.argv[2] ?? 5000)
const seed = 20260317
const results = SCENARIOS.map((scenario, i) => tally(scenario, panels, seed + i))
const whole = {
  source: 'simulation by this project: test/simulation/coverage.ts',
  tool: 'pure-rand, xoroshiro128+',
  seed,
  tasterSd: 1,
  residualSd: 1.2,
  level: 0.95,
  results,
}
writeFileSync(new URL('./coverage.json', import.meta.url), `${JSON.stringify(whole, null, 2)}\n`)
console.log(JSON.stringify(results, null, 2))
