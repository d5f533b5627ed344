/**
 * What a person asked for on the command line.
 *
 * @typedef {{ act: 'serve' | 'dev' | 'demo' | 'prepare' } | { act: 'run' | 'run-apart', file: string, args: string[] }} Order
 * run-apart: for what must not bring the database up to date first, nor make one
 */

/**
 * @param {readonly string[]} words
 * @returns {Order | null} null when they make no sense
 */
export function readOrder(words) {
  const [first, second, ...rest] = words
  if (first === '--run' && second !== undefined) return { act: 'run', file: second, args: rest }
  if (first === '--run-apart' && second !== undefined) return { act: 'run-apart', file: second, args: rest }
  if (words.length > 1) return null
  switch (first) {
    case undefined:
      return { act: 'serve' }
    case '--dev':
      return { act: 'dev' }
    case '--demo':
      return { act: 'demo' }
    case '--prepare':
      return { act: 'prepare' }
    default:
      return null
  }
}

export const USAGE = 'Use: npm start, npm run dev, npm run demo, or node lib/commands/start.mjs --run FILE …'

/**
 * True when this Node is new enough.
 *
 * @param {string} version  like v20.19.0
 * @param {string} engines  like >=20.19
 */
export function isNewEnough(version, engines) {
  const [major = 0, minor = 0] = version.replace(/^v/, '').split('.').map(Number)
  const [wantedMajor = 0, wantedMinor = 0] = engines.replace(/^>=/, '').split('.').map(Number)
  return major > wantedMajor || (major === wantedMajor && minor >= wantedMinor)
}
