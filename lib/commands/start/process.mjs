import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'

/**
 * Linux: the line about a process, from its third field on (its state is the first here); the second, its name, may hold
 * spaces. Elsewhere, and for a process that is not there, null.
 *
 * @param {number} pid
 * @returns {string[] | null}
 */
export function statOf(pid) {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')
  } catch {
    return null
  }
}

/**
 * @typedef {{ parent: number, command: string }} Seen
 *
 * Who started a process, and with which words; null where the system does not tell.
 *
 * @param {number} pid
 * @returns {Seen | null}
 */
export function seeProcess(pid) {
  const stat = statOf(pid)
  if (stat) {
    try {
      return {
        parent: Number(stat[1]),
        command: readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ').trim(),
      }
    } catch {
      return null
    }
  }
  if (process.platform === 'win32') return null
  const { stdout } = spawnSync('ps', ['-o', 'ppid=,command=', '-p', String(pid)], { encoding: 'utf8' })
  const line = /^\s*(\d+)\s+(.*)/.exec(stdout ?? '')
  return line ? { parent: Number(line[1]), command: line[2]?.trim() ?? '' } : null
}
