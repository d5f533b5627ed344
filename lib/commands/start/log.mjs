import { closeSync, fchmodSync, fstatSync, mkdirSync, openSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import { Writable } from 'node:stream'
import { systemCode } from './say.mjs'

const NEW_LINE = 10
const TRY_AGAIN_MS = 2000

/**
 * Opens a log that only its owner can read, whatever it was before.
 *
 * @param {string} file
 * @param {'a' | 'w'} flags
 */
export function openPrivately(file, flags) {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
  const handle = openSync(file, flags, 0o600)
  const stat = fstatSync(handle)
  if (stat.isFile() && (stat.mode & 0o077) !== 0) fchmodSync(handle, 0o600)
  return handle
}

/**
 * A log that never fails whoever writes to it. What it cannot keep, on a full disk above all, goes elsewhere; as soon as it
 * can be written again it says from when on lines are missing.
 *
 * @param {string} file
 * @param {{ instead?: { write(bytes: string | Uint8Array): unknown }, now?: () => Date, tryAgainMs?: number }} [how]
 *   instead: where lines go that cannot be kept, the error stream if not given
 * @returns {Writable}
 */
export function openLog(file, { instead = process.stderr, now = () => new Date(), tryAgainMs = TRY_AGAIN_MS } = {}) {
  /** @type {number | null} */
  let handle = null
  let isInLine = false
  /** @type {{ since: Date, why: string, times: number } | null} */
  let lost = null
  /** @type {NodeJS.Timeout | undefined} */
  let again

  /** @param {Uint8Array} bytes */
  function put(bytes) {
    for (let from = 0; from < bytes.length;) {
      handle ??= openPrivately(file, 'a')
      from += writeSync(handle, bytes, from)
      isInLine = bytes[from - 1] !== NEW_LINE
    }
  }

  function sayWhatIsMissing() {
    if (lost === null) return
    const { since, why, times } = lost
    const entries = `${times} ${times === 1 ? 'entry is' : 'entries are'} missing since ${since.toISOString()} (${why})`
    const line = `${now().toISOString()} This log can be written again. ${entries}; the error stream had them.\n`
    put(Buffer.from(isInLine ? `\n${line}` : line))
    lost = null
    clearInterval(again)
  }

  /** @param {Uint8Array} bytes */
  function keep(bytes) {
    try {
      sayWhatIsMissing()
      put(bytes)
    } catch (error) {
      if (handle !== null) closeQuietly(handle)
      handle = null
      if (lost === null) {
        lost = { since: now(), why: reasonOf(error), times: 0 }
        instead.write(`${file} cannot be written (${lost.why}): what belongs there comes here.\n`)
        again = setInterval(() => keep(new Uint8Array()), tryAgainMs).unref()
      }
      if (bytes.length === 0) return
      lost.times++
      instead.write(bytes)
    }
  }

  return new Writable({
    write(bytes, _encoding, done) {
      keep(bytes)
      done()
    },
    final(done) {
      clearInterval(again)
      if (handle !== null) closeQuietly(handle)
      done()
    },
  })
}

/** @param {number} handle */
function closeQuietly(handle) {
  try {
    closeSync(handle)
  } catch {
    // a full disk may say so once more here
  }
}

/** @param {unknown} error */
function reasonOf(error) {
  const code = systemCode(error)
  return code === 'ENOSPC' || code === 'EDQUOT' ? 'the disk is full' : code
}
