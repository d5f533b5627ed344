import { randomBytes } from 'node:crypto'
import { linkSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, unlinkSync, writeFileSync } from 'node:fs'
import { hostname } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { statOf } from './process.mjs'
import { systemCode } from './say.mjs'

/**
 * @typedef {object} Holder
 * @property {string} host
 * @property {number[]} pids  the lock lives as long as one of these processes does
 * @property {(string | null)[]} born  when each began, where the system tells: a pid is used again some day
 * @property {string} note  what the holder is doing
 *
 * @typedef {{ taken: true, update: (pids: number[], note: string) => void, release: () => void }} Taken
 * @typedef {{ taken: false, holder: Holder }} Held
 */

/**
 * Takes a lock file, or tells who holds it. A lock whose holder is dead is taken over.
 *
 * @param {string} file
 * @param {string} note
 * @returns {Taken | Held}
 */
export function takeLock(file, note) {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
  sweepLeftovers(file)
  const mine = ownName(file)
  for (;;) {
    writeFileSync(mine, describe([process.pid], note), { mode: 0o600 })
    try {
      linkSync(mine, file) // fails when the name is there: the whole note appears at once or not at all
      unlinkSync(mine)
      return held(file, mine)
    } catch (error) {
      unlinkSync(mine)
      if (systemCode(error) !== 'EEXIST') throw error
    }
    const seen = readText(file)
    const holder = parse(seen)
    if (holder && isAlive(holder)) return { taken: false, holder }
    if (seen !== null) removeStale(file, seen, mine)
  }
}

/**
 * Who holds the lock now, or null.
 *
 * @param {string} file
 */
export function lockHolder(file) {
  const holder = parse(readText(file))
  return holder && isAlive(holder) ? holder : null
}

/**
 * @param {Holder} holder
 * @param {string} [host]
 */
export function isAlive(holder, host = hostname()) {
  if (holder.host !== host) return false // left behind in a container that is gone
  return holder.pids.some((pid, i) => {
    if (!isRunning(pid)) return false
    const born = holder.born[i] ?? null
    const now = birthOf(pid)
    return born === null || now === null || born === now
  })
}

/**
 * Removes a lock that nobody holds any more.
 *
 * @param {string} file
 */
export function sweepLock(file) {
  sweepLeftovers(file)
  const seen = readText(file)
  if (seen === null) return
  const holder = parse(seen)
  if (!holder || !isAlive(holder)) removeStale(file, seen, ownName(file))
}

/** @param {number} pid */
function isRunning(pid) {
  try {
    process.kill(pid, 0)
  } catch (error) {
    if (systemCode(error) !== 'EPERM') return false
  }
  // one that has ended stays in the list until its parent asks for it, and some never do: it holds nothing
  const state = statOf(pid)?.[0]
  return state === undefined || !['Z', 'X', 'x'].includes(state)
}

/**
 * What takers of this lock left beside it that were ended by force.
 *
 * @param {string} file
 */
function sweepLeftovers(file) {
  for (const name of readdirSync(dirname(file))) {
    if (!name.startsWith(`${basename(file)}.`)) continue
    const pid = /^\.(\d+)\.[0-9a-f]{8}(\.stale)?$/.exec(name.slice(basename(file).length))?.[1]
    if (pid !== undefined && !isRunning(Number(pid))) rmSync(join(dirname(file), name), { force: true })
  }
}

/** @param {string} file */
function ownName(file) {
  return `${file}.${process.pid}.${randomBytes(4).toString('hex')}`
}

/**
 * @param {string} file
 * @param {string} mine
 * @returns {Taken}
 */
function held(file, mine) {
  return {
    taken: true,
    update: (pids, note) => {
      writeFileSync(mine, describe(pids, note), { mode: 0o600 })
      renameSync(mine, file)
    },
    release: () => rmSync(file, { force: true }),
  }
}

/**
 * Two starts may find the same dead lock. Whoever moves it away looks at what was moved: if it is a fresh lock that the
 * other has put there meanwhile, it goes back.
 *
 * @param {string} file
 * @param {string} seen
 * @param {string} mine
 */
function removeStale(file, seen, mine) {
  const away = `${mine}.stale`
  try {
    renameSync(file, away)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return
    throw error
  }
  try {
    if (readText(away) !== seen) linkSync(away, file)
  } finally {
    unlinkSync(away)
  }
}

/**
 * @param {number[]} pids
 * @param {string} note
 */
function describe(pids, note) {
  return JSON.stringify({ host: hostname(), pids, born: pids.map(birthOf), note })
}

/** @param {string} file */
function readText(file) {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null
    throw error
  }
}

/**
 * @param {string | null} text
 * @returns {Holder | null}
 */
function parse(text) {
  try {
    const holder = JSON.parse(text ?? 'null')
    return Array.isArray(holder?.pids) && Array.isArray(holder.born) ? holder : null
  } catch {
    return null // cut off by a power cut
  }
}

/**
 * When a process began: the 22nd field of its line. Elsewhere than on Linux unknown.
 *
 * @param {number} pid
 */
function birthOf(pid) {
  return statOf(pid)?.[19] ?? null
}
