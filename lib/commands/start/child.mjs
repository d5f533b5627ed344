import { spawn } from 'node:child_process'
import { closeSync, mkdirSync, openSync, statfsSync } from 'node:fs'
import { dirname } from 'node:path'

/** @type {Set<import('node:child_process').ChildProcess>} */
const running = new Set()

/**
 * Runs a program to its end, everything it says kept in a log.
 *
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ cwd: string, env?: Readonly<Record<string, string>>, log: string }} how
 * @returns {Promise<number>} its exit code; 127 when it could not be started
 */
export async function runLogged(program, args, { cwd, env, log }) {
  mkdirSync(dirname(log), { recursive: true })
  const handle = openSync(log, 'w')
  try {
    return await ended(
      keep(spawn(program, args, { cwd, env: { ...process.env, ...env }, stdio: ['ignore', handle, handle] })),
    )
  } finally {
    closeSync(handle)
  }
}

/**
 * Remembers a child, so that it is stopped with this process.
 *
 * @template {import('node:child_process').ChildProcess} C
 * @param {C} child
 * @returns {C}
 */
export function keep(child) {
  running.add(child)
  child.once('exit', () => running.delete(child))
  child.once('error', () => running.delete(child))
  return child
}

/**
 * @param {import('node:child_process').ChildProcess} child
 * @returns {Promise<number>}
 */
export function ended(child) {
  return new Promise((resolve) => {
    child.once('error', () => resolve(127))
    child.once('exit', (code, signal) => resolve(code ?? (signal ? 128 : 1)))
  })
}

/** Asks every child to end, and ends those that have not after five seconds. */
export async function stopChildren() {
  const left = [...running]
  for (const child of left) child.kill('SIGTERM')
  const timer = setTimeout(() => left.forEach((child) => child.kill('SIGKILL')), 5000)
  await Promise.all(left.map((child) => (child.exitCode === null && child.signalCode === null ? ended(child) : 0)))
  clearTimeout(timer)
}

/**
 * The likely reason a tool failed, from the machine and not from what the tool said; null when none is to be seen.
 *
 * @param {string} folder
 */
export function machineTrouble(folder) {
  const disk = statfsSync(folder)
  const freeMegabytes = Math.floor((disk.bavail * disk.bsize) / 1e6)
  return freeMegabytes < 300 ? `the disk is nearly full, ${freeMegabytes} MB free: make room and start again` : null
}
