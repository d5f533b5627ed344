import { parseArgs } from 'node:util'

/**
 * What `npm test` and `npm run test:long` run, in this order: quick answers first.
 *
 * @typedef {object} Suite
 * @property {string} name
 * @property {'check' | 'vitest'} kind  a check counts as one test
 * @property {readonly string[]} words  what Node is told to run
 * @property {boolean} needsBrowser
 * @property {boolean} isLong  of `npm run test:long`: too long for every change
 */

/**
 * @typedef {object} Wanted
 * @property {readonly Suite[]} suites
 * @property {string | null} counts  a file of counts to add to: the closing line is over all suites that stand in it
 */

/** @type {readonly Suite[]} */
export const SUITES = Object.freeze([
  check('types', ['node_modules/typescript/bin/tsc', '--noEmit']),
  check('lint', ['node_modules/eslint/bin/eslint.js', '--max-warnings=0', '.']),
  check('unused', ['node_modules/knip/bin/knip.js', '--config', '.knip.json', '--no-config-hints']),
  check('format', ['node_modules/prettier/bin/prettier.cjs', '--check', '--log-level=warn', '.']),
  vitest('unit'),
  vitest('reference'),
  vitest('integration'),
  vitest('e2e'),
  { ...vitest('long'), needsBrowser: true, isLong: true },
])

const OPTIONS = {
  long: { type: /** @type {const} */ ('boolean'), default: false },
  only: { type: /** @type {const} */ ('string') },
  counts: { type: /** @type {const} */ ('string') },
}

/**
 * @param {readonly string[]} words  from the command line: `--long`, `--only NAMES` (by commas or spaces), `--counts FILE`
 * @returns {Wanted | null} null when a word or a name is not one of ours
 */
export function readWords(words) {
  const said = saidIn(words)
  if (!said) return null
  const { long, only, counts = null } = said.values
  if (only === undefined) {
    return said.positionals.length > 0 ? null : { suites: SUITES.filter(({ isLong }) => isLong === long), counts }
  }
  const names = [only, ...said.positionals].flatMap((word) => word.split(','))
  if (!names.every((name) => SUITES.some((suite) => suite.name === name))) return null
  return { suites: SUITES.filter(({ name }) => names.includes(name)), counts }
}

/** @param {readonly string[]} words */
function saidIn(words) {
  try {
    return parseArgs({ args: [...words], options: OPTIONS, allowPositionals: true })
  } catch {
    return null
  }
}

/**
 * Counts in a vitest JSON report. A file that could not be loaded, and a suite without a test, count as one failure.
 *
 * @param {unknown} report
 * @returns {{ passed: number, failed: number, skipped: number }}
 */
export function countReport(report) {
  const files = field(report, 'testResults')
  if (!Array.isArray(files)) return { passed: 0, failed: 1, skipped: 0 }
  const tests = files.flatMap((file) => {
    const inFile = field(file, 'assertionResults')
    return Array.isArray(inFile) ? inFile : []
  })
  const having = (/** @type {string} */ status) => tests.filter((test) => field(test, 'status') === status).length
  const [passed, failedTests] = [having('passed'), having('failed')]
  const unloaded = files.filter((file) => {
    const inFile = field(file, 'assertionResults')
    const hasFailure = Array.isArray(inFile) && inFile.some((test) => field(test, 'status') === 'failed')
    return field(file, 'status') === 'failed' && !hasFailure
  }).length
  const failed = failedTests + unloaded
  return { passed, failed: passed + failed === 0 ? 1 : failed, skipped: tests.length - passed - failedTests }
}

/**
 * @param {string} name
 * @param {readonly string[]} words
 * @returns {Suite}
 */
function check(name, words) {
  return { name, kind: 'check', words, needsBrowser: false, isLong: false }
}

/**
 * @param {string} project
 * @returns {Suite}
 */
function vitest(project) {
  // `integration-apart` is the same suite: files that need all modules to themselves
  const words = ['node_modules/vitest/vitest.mjs', 'run', '--project', `${project}*`, '--passWithNoTests']
  return { name: project, kind: 'vitest', words, needsBrowser: project === 'e2e', isLong: false }
}

/**
 * @param {unknown} from
 * @param {string} name
 * @returns {unknown}
 */
function field(from, name) {
  return typeof from === 'object' && from !== null ? Reflect.get(from, name) : undefined
}
