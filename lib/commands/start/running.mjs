import { mkdirSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { lockHolder, sweepLock, takeLock } from './lock.mjs'

/** @typedef {{ pid: number, address: string, folder: string }} App */

/**
 * The apps that serve from this copy of the program.
 *
 * @param {string} data
 * @returns {App[]}
 */
export function runningApps(data) {
  const folder = join(data, 'running')
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  return readdirSync(folder)
    .filter((name) => name.endsWith('.lock'))
    .flatMap((name) => lockHolder(join(folder, name)) ?? [])
    .map((holder) => ({ pid: holder.pids[0] ?? 0, ...addressAndFolder(holder.note) }))
}

/**
 * Notes that this process serves, and sweeps the notes of those that ended without taking theirs away.
 *
 * @param {string} data
 * @param {string} address
 * @param {string} folder
 */
export function noteRunning(data, address, folder) {
  const notes = join(data, 'running')
  mkdirSync(notes, { recursive: true, mode: 0o700 })
  const locks = new Set(readdirSync(notes).map((name) => name.replace(/\.lock\..*$/, '.lock')))
  for (const name of locks) if (name.endsWith('.lock')) sweepLock(join(notes, name))
  return takeLock(join(data, 'running', `${process.pid}.lock`), noteOf(address, folder))
}

/**
 * @param {string} address
 * @param {string} folder
 */
export function noteOf(address, folder) {
  return `${address} ${folder}`
}

/** @param {string} note */
export function addressAndFolder(note) {
  const [address = '', folder = ''] = note.split(' ')
  return { address, folder }
}
