/**
 * How often do all joint intervals of a panel hold the truth, and how often does a panel claim what is not true?
 * Run: npx tsx test/simulation/coverage.ts [panels]   (5 000 of each kind without an argument; some minutes)
 * Writes test/simulation/coverage.json, which test/reference/coverage-of-claims.test.ts reads.
 */
import { writeFileSync } from 'node:fs'
import { SCENARIOS, tally } from './panels'

const panels = Number(process.argv[2] ?? 5000)
const seed = 20261126
const results = SCENARIOS.map((scenario, i) => {
  const result = tally(scenario, panels, seed + i)
  console.log(JSON.stringify(result))
  return result
})
const whole = {
  source: 'simulation by this project: test/simulation/coverage.ts',
  tool: 'pure-rand, xoroshiro128+',
  seed,
  tasterSd: 1,
  restSd: 1.2,
  level: 0.95,
  marginLevel: 0.9,
  results,
}
writeFileSync(new URL('./coverage.json', import.meta.url), `${JSON.stringify(whole, null, 2)}\n`)
