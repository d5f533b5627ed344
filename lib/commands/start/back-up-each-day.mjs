import { existsSync, readdirSync } from 'node:fs'
import { isBackupDue } from '../../base/backup-name.mjs'
import { progress, systemCode } from './say.mjs'
import { readTypescript } from './typescript.mjs'

const LOOK_EVERY_MS = 3_600_000

/**
 * While the house runs: a backup as soon as the newest in the folder is a day old, in a process of its own. One that fails is
 * said and tried again within the hour; the house goes on.
 *
 * @param {string} root
 * @param {string} folder
 * @param {Readonly<Record<string, string>>} env
 * @param {AbortSignal} stop
 */
export function backUpEachDay(root, folder, env, stop) {
  let isMaking = false
  const look = async () => {
    if (isMaking || stop.aborted || !isDueIn(folder)) return
    isMaking = true
    const { code, output, errors } = await readTypescript(root, 'lib/commands/backup.ts', ['--rotate'], env)
    isMaking = false
    if (!stop.aborted) progress(code === 0 ? output.trim() : `No backup was made today: ${errors.trim()}`)
  }
  const timer = setInterval(() => void look(), LOOK_EVERY_MS)
  stop.addEventListener('abort', () => clearInterval(timer))
  void look()
}

/** @param {string} folder */
function isDueIn(folder) {
  try {
    return !existsSync(folder) || isBackupDue(readdirSync(folder), new Date())
  } catch (error) {
    progress(`No backup was made: ${folder} cannot be read (${systemCode(error)}).`)
    return false
  }
}
