import { chmodSync, lstatSync, mkdirSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { progress, systemCode } from './say.mjs'

/**
 * Makes the folder of data and its logs, and sees to it that nobody but their owner reads them, whatever they were before.
 *
 * @param {import('./ready.mjs').House} house
 */
export function keepToOwner({ data, logs }) {
  mkdirSync(logs, { recursive: true, mode: 0o700 })
  narrow(data, 0o700)
  narrow(logs, 0o700)
  for (const name of readdirSync(logs)) {
    const file = join(logs, name)
    if (lstatSync(file).isFile()) narrow(file, 0o600)
  }
}

/**
 * @param {string} path
 * @param {number} mode
 */
function narrow(path, mode) {
  if ((lstatSync(path).mode & 0o077) === 0) return
  try {
    chmodSync(path, mode)
  } catch (error) {
    // somebody else's, or a disk that knows no rights: no reason to keep the house closed
    progress(`${path} can be read by others on this computer, and that cannot be changed here (${systemCode(error)}).`)
  }
}

/**
 * Whoever has the set-up link owns the house. What goes to a terminal is seen and gone; what goes anywhere else, into a file or a
 * service's journal, stays. SETUP_LINK=print says that whoever reads it may.
 *
 * @param {{ readonly isTTY?: boolean }} [output]
 * @param {Readonly<Record<string, string | undefined>>} [variables]
 */
export function mayPrintSetUpLink(output = process.stdout, variables = process.env) {
  return output.isTTY === true || variables.SETUP_LINK === 'print'
}
