import { join } from 'node:path'
import { build, buildFolder, isBuilt, tidyBuilds } from './build.mjs'
import { generateClient, isClientGenerated } from './client.mjs'
import { install, isInstalled } from './install.mjs'
import { takeLock } from './lock.mjs'
import { runningApps } from './running.mjs'
import { progress, StartFailure } from './say.mjs'

const PATIENCE_MS = 30 * 60_000

/**
 * @typedef {object} House
 * @property {string} root  the program
 * @property {string} data  `.data` in it: secret, logs, locks
 * @property {string} logs
 *
 * @param {string} root
 * @returns {House}
 */
export function houseAt(root) {
  const data = join(root, '.data')
  return { root, data, logs: join(data, 'logs') }
}

/**
 * Brings packages, database client and, if wanted, pages up to date with the sources; does nothing that is done already.
 *
 * @param {House} house
 * @param {{ pages: boolean }} wanted
 * @returns {Promise<string>} the build folder for the present sources
 */
export async function makeReady(house, { pages }) {
  const { root, data, logs } = house
  const isReady = () => isInstalled(root) && isClientGenerated(root) && (!pages || isBuilt(root, buildFolder(root)))
  if (isReady()) return buildFolder(root)

  const release = await waitForTurn(join(data, 'build.lock'))
  try {
    if (!isInstalled(root)) {
      const [app] = runningApps(data)
      if (app)
        throw new StartFailure(
          `The packages have changed, and the app at ${app.address} runs on the old ones: stop it (process ${app.pid}), then start again.`,
        )
      await install(root, logs)
    }
    if (!isClientGenerated(root)) await generateClient(root, logs)
    const folder = buildFolder(root)
    if (pages && !isBuilt(root, folder)) {
      await build(root, folder, logs)
      tidyBuilds(root, folder, new Set(runningApps(data).map((app) => app.folder)))
    }
    return folder
  } finally {
    release()
  }
}

/**
 * One start at a time may install and build.
 *
 * @param {string} file
 */
async function waitForTurn(file) {
  const until = performance.now() + PATIENCE_MS
  for (let isFirst = true; ; isFirst = false) {
    const lock = takeLock(file, 'building')
    if (lock.taken) return lock.release
    if (isFirst) progress(`Another start (process ${lock.holder.pids[0]}) is getting ready; waiting for it …`)
    if (performance.now() > until)
      throw new StartFailure(
        `Process ${lock.holder.pids[0]} has been getting ready for half an hour: stop it, then start again.`,
      )
    await new Promise((resolve) => setTimeout(resolve, 250))
  }
}
