import { randomBytes } from 'node:crypto'
import { chmodSync, linkSync, mkdirSync, readFileSync, unlinkSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { StartFailure, systemCode } from './say.mjs'

/**
 * The secret that signs sign-ins: made once, kept in a file that only its owner can read.
 *
 * @param {string} file
 * @returns {string}
 */
export function keepSecret(file) {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
  const mine = `${file}.${process.pid}`
  try {
    return checked(readFileSync(file, 'utf8'), file)
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error
  }
  writeFileSync(mine, `${randomBytes(48).toString('base64url')}\n`, { mode: 0o600, flag: 'wx' })
  try {
    linkSync(mine, file) // whoever comes second keeps the first one's secret
  } catch (error) {
    if (systemCode(error) !== 'EEXIST') throw error
  } finally {
    unlinkSync(mine)
  }
  chmodSync(file, 0o600)
  return checked(readFileSync(file, 'utf8'), file)
}

/**
 * @param {string} text
 * @param {string} file
 */
function checked(text, file) {
  const secret = text.trim()
  if (secret.length < 32) {
    throw new StartFailure(
      `${file} is damaged: remove it and start again; everyone signs in anew, nothing else is lost.`,
    )
  }
  return secret
}
