// Plain JavaScript, Node built-ins only: `npm start` reads this before anything is installed.
import { isIP } from 'node:net'
import { resolve } from 'node:path'

/**
 * @typedef {object} Environment
 * @property {number} port
 * @property {string} databaseUrl  `file:` and an absolute path
 * @property {string} databaseFile  that path
 * @property {string | null} publicUrl  origin phones can reach, without a slash at the end; null when not set
 * @property {string | null} authSecret  null when not set: `npm start` makes one
 * @property {readonly string[]} proxies  addresses of proxies whose word about who asks is believed
 * @property {{ readonly folder: string, readonly kept: number } | null} backups  where a backup is made each day, and how many
 *   are kept; null when none is
 */

/**
 * Checks every variable the house knows. An empty one counts as not set.
 *
 * @param {Readonly<Record<string, string | undefined>>} variables
 * @param {string} from  folder that a relative path counts from
 * @returns {{ ok: true, value: Environment } | { ok: false, problem: string }} problem: one line that names the mend
 */
export function readEnvironment(variables, from) {
  const portText = variables.PORT || '3000'
  const port = Number(portText)
  if (!/^\d{1,5}$/.test(portText) || port < 1 || port > 65535) {
    return no(`PORT must be a whole number from 1 to 65535, got "${portText}".`)
  }

  const databaseUrl = variables.DATABASE_URL || 'file:.data/sipwright.db'
  const file = databaseFile(databaseUrl, from)
  if (file === null) {
    const shown = databaseUrl.replace(/\/\/[^@/]*@/, '//…@')
    return no(`DATABASE_URL must be "file:" and the path of a database file, got "${shown}".`)
  }

  const publicUrl = variables.PUBLIC_URL ? origin(variables.PUBLIC_URL) : null
  if (variables.PUBLIC_URL && publicUrl === null) {
    return no(`PUBLIC_URL must be like http://192.168.1.20:3000, without a path, got "${variables.PUBLIC_URL}".`)
  }

  const authSecret = variables.AUTH_SECRET || null
  if (authSecret !== null && authSecret.length < 32) {
    return no('AUTH_SECRET must have at least 32 characters; leave it out and one is made.')
  }

  // https ends at a proxy, on this computer if nothing else is said
  const usual = publicUrl?.startsWith('https:') ? '127.0.0.1,::1' : ''
  const proxies = (variables.PROXY || usual).split(',').flatMap((one) => one.trim() || [])
  if (proxies.some((one) => isIP(one) === 0)) {
    return no(`PROXY must be the addresses of your proxies, like 127.0.0.1,::1, got "${variables.PROXY}".`)
  }

  const keptText = variables.BACKUPS_KEPT || '14'
  const kept = Number(keptText)
  if (!/^\d{1,4}$/.test(keptText) || kept < 1) {
    return no(`BACKUPS_KEPT must be a whole number from 1 to 9999, got "${keptText}".`)
  }
  const backups = variables.BACKUPS ? { folder: resolve(from, variables.BACKUPS), kept } : null
  const value = { port, databaseUrl: `file:${file}`, databaseFile: file, publicUrl, authSecret, proxies, backups }
  return { ok: true, value }
}

/**
 * The file behind a `file:` address, as an absolute path; null for any other address.
 *
 * @param {string} url
 * @param {string} from  folder that a relative path counts from
 * @returns {string | null}
 */
export function databaseFile(url, from) {
  if (!url.startsWith('file:')) return null
  const path = url.slice('file:'.length).replace(/^\/\/(?=\/)/, '')
  if (path === '' || path === ':memory:' || path.startsWith('//') || /[?#\0]/.test(path)) return null
  return resolve(from, path)
}

/** @param {string} text */
function origin(text) {
  if (!URL.canParse(text)) return null
  const url = new URL(text)
  const isWeb = url.protocol === 'http:' || url.protocol === 'https:'
  const isBare = url.pathname === '/' && url.search === '' && url.hash === '' && url.username === ''
  return isWeb && isBare ? url.origin : null
}

/** @param {string} problem */
function no(problem) {
  return { ok: /** @type {const} */ (false), problem }
}
