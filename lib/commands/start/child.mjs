import { spawn } from 'node:child_process'
import { closeSync, statfsSync } from 'node:fs'
import { openPrivately } from './log.mjs'
import { systemCode } from './say.mjs'

/** Asked to end, a child has this long; a start that is stopped is over within two seconds. */
const GRACE_MS = 1500

/** @type {Map<import('node:child_process').ChildProcess, { leadsGroup: boolean }>} */
const running = new Map()

/**
 * Runs a program to its end, everything it says kept in a log.
 *
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ cwd: string, env?: Readonly<Record<string, string>>, log: string }} how
 * @returns {Promise<number>} its exit code; 127 when it could not be started
 */
export async function runLogged(program, args, { cwd, env, log }) {
  const handle = openPrivately(log, 'w')
  // such tools start others, which are to end with them: on Windows there are no groups to signal
  const leadsGroup = process.platform !== 'win32'
  try {
    const how = { cwd, env: { ...process.env, ...env }, detached: leadsGroup }
    return await ended(keep(spawn(program, args, { ...how, stdio: ['ignore', handle, handle] }), { leadsGroup }))
  } finally {
    closeSync(handle)
  }
}

/**
 * Remembers a child, so that it is stopped with this process.
 *
 * @template {import('node:child_process').ChildProcess} C
 * @param {C} child
 * @param {{ leadsGroup: boolean }} [how]  leadsGroup: what it starts itself is stopped with it
 * @returns {C}
 */
export function keep(child, how = { leadsGroup: false }) {
  running.set(child, how)
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

/** Asks every child to end, and ends those by force that have not in time. */
export async function stopChildren() {
  const left = [...running]
  for (const [child, how] of left) signal(child, how, 'SIGTERM')
  const timer = setTimeout(() => left.forEach(([child, how]) => signal(child, how, 'SIGKILL')), GRACE_MS)
  await Promise.all(left.map(([child]) => (child.exitCode === null && child.signalCode === null ? ended(child) : 0)))
  clearTimeout(timer)
  // a tool may have gone before what it started
  for (const [child, how] of left) if (how.leadsGroup) signal(child, how, 'SIGKILL')
}

/**
 * @param {import('node:child_process').ChildProcess} child
 * @param {{ leadsGroup: boolean }} how
 * @param {NodeJS.Signals} name
 */
function signal(child, { leadsGroup }, name) {
  if (!leadsGroup || child.pid === undefined) return void child.kill(name)
  try {
    process.kill(-child.pid, name)
  } catch (error) {
    if (systemCode(error) !== 'ESRCH') throw error // else all of them have ended
  }
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
