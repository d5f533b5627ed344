/**
 * `npm test`: everything that is quick enough for every change, from nothing but the sources. `npm run test:long`: the rest.
 *
 *     npm test -- --only unit,types
 *     npm run test:long -- --counts FILE
 *
 * Ends with one line over all suites, `N passed, N failed`; types, lint and format count as one test each. With `--counts FILE`
 * what was counted is added to the file, and the line is over all that stands in it.
 */
import { spawn } from 'node:child_process'
import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { ended, keep, runLogged, stopChildren } from './start/child.mjs'
import { houseAt, makeReady } from './start/ready.mjs'
import { outliveLostWords, StartFailure } from './start/say.mjs'
import { whenStartersGo } from './start/starter.mjs'
import { chromiumForTests } from './test/chromium.mjs'
import { countReport, readWords, SUITES } from './test/suites.mjs'

/** @typedef {{ name: string, passed: number, failed: number, skipped: number, minutes: number }} Outcome */

const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[/\\]$/, '')
const house = houseAt(root)
const reports = mkdtempSync(join(tmpdir(), 'sipwright-reports-'))
// a folder of its own: the tests never disturb an app that is being served from this copy
process.env.NEXT_BUILD_PREFIX = '.next-e2e'

outliveLostWords()
const stop = () => void stopChildren().then(() => process.exit(130))
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.once(signal, stop)
whenStartersGo(stop)

/** @param {import('./test/suites.mjs').Wanted | null} wanted */
async function main(wanted) {
  if (!wanted)
    throw new StartFailure(
      `Use: npm test, npm run test:long, or npm test -- --only NAMES, of ${SUITES.map(({ name }) => name).join(', ')}`,
    )

  const { suites, counts } = wanted
  const needsBrowser = suites.some((suite) => suite.needsBrowser)
  const browser = needsBrowser ? chromiumForTests() : null
  if (browser && !browser.ok) throw new StartFailure(browser.mend)
  if (browser) process.env.CHROMIUM_PATH = browser.path

  const began = performance.now()
  await makeReady(house, { pages: needsBrowser })
  say(`ready to test (${minutes(performance.now() - began)} min)`)
  if (suites.some((suite) => suite.name === 'types')) await writeRouteTypes()

  // the checks keep one core each and say nothing unless they fail: all at once
  const outcomes = await Promise.all(suites.filter(({ kind }) => kind === 'check').map(run))
  for (const suite of suites.filter(({ kind }) => kind === 'vitest')) outcomes.push(await run(suite))
  return closingLines(counts, outcomes)
}

/** Next's types of our routes, which the type check needs; into the folder of `next dev`. */
async function writeRouteTypes() {
  const log = join(house.logs, 'typegen.log')
  const code = await runLogged(process.execPath, ['node_modules/next/dist/bin/next', 'typegen'], {
    cwd: root,
    env: { NEXT_TELEMETRY_DISABLED: '1' },
    log,
  })
  if (code !== 0) throw new StartFailure(`The types of the routes could not be written (log: ${log}).`)
}

/**
 * @param {import('./test/suites.mjs').Suite} suite
 * @returns {Promise<Outcome>}
 */
async function run({ name, kind, words }) {
  say(`── ${name}`)
  const began = performance.now()
  const report = join(reports, `${name}.json`)
  const reporting = kind === 'vitest' ? ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`] : []
  const child = keep(
    spawn(process.execPath, [...words, ...reporting], { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] }),
  )
  const code = await ended(child)
  const counted =
    kind === 'check'
      ? countCheck(code)
      : countReport(existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : null)
  // a run that broke off without a failed test is a failure all the same
  if (code !== 0 && counted.failed === 0) counted.failed = 1
  return { name, ...counted, minutes: performance.now() - began }
}

/** @param {number} code */
function countCheck(code) {
  return { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, skipped: 0 }
}

/**
 * @param {string} file  one outcome a line
 * @param {readonly Outcome[]} outcomes
 * @returns {Outcome[]} all that stand in the file now
 */
function addedTo(file, outcomes) {
  appendFileSync(file, outcomes.map((outcome) => `${JSON.stringify(outcome)}\n`).join(''))
  return readFileSync(file, 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line))
}

/**
 * @param {string | null} counts
 * @param {readonly Outcome[]} ran
 * @returns {0 | 1} how the process ends: by what ran now
 */
function closingLines(counts, ran) {
  const outcomes = counts === null ? ran : addedTo(counts, ran)
  say('')
  for (const { name, passed, failed, skipped, minutes: spent } of outcomes) {
    say(`${name}: ${passed} passed, ${failed} failed, ${skipped} skipped in ${minutes(spent)} min`)
  }
  say('')
  const skipped = total(outcomes, 'skipped') > 0 ? `, ${total(outcomes, 'skipped')} skipped` : ''
  say(`${total(outcomes, 'passed')} passed, ${total(outcomes, 'failed')} failed${skipped}`)
  return total(ran, 'failed') > 0 || total(ran, 'passed') === 0 ? 1 : 0
}

/**
 * @param {readonly Outcome[]} outcomes
 * @param {'passed' | 'failed' | 'skipped'} part
 */
function total(outcomes, part) {
  return outcomes.reduce((sum, outcome) => sum + outcome[part], 0)
}

/** @param {number} milliseconds */
function minutes(milliseconds) {
  return (milliseconds / 60_000).toFixed(1)
}

/** @param {string} line */
function say(line) {
  process.stdout.write(`${line}\n`)
}

const wanted = readWords(process.argv.slice(2))
try {
  process.exitCode = await main(wanted)
} catch (error) {
  if (!(error instanceof StartFailure)) throw error
  process.stderr.write(`${error.message}\n`)
  const start = { name: 'start', passed: 0, failed: 1, skipped: 0, minutes: 0 }
  process.exitCode = closingLines(wanted?.counts ?? null, [start])
} finally {
  rmSync(reports, { recursive: true, force: true })
}
