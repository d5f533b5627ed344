import { existsSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { machineTrouble, runLogged } from './child.mjs'
import { BUILD_PATHS, fingerprint } from './fingerprint.mjs'
import { openLog } from './log.mjs'
import { progress, StartFailure } from './say.mjs'

const WHOLE = 'sipwright-build-is-whole' // written last: a folder without it was cut off
const KEPT = 2 // the present build and the one before, to go back to

/**
 * The folder, named for its sources, in which this version is built. A new version never touches an old one's folder.
 *
 * @param {string} root
 * @param {string} [prefix]
 */
export function buildFolder(root, prefix = process.env.NEXT_BUILD_PREFIX || '.next-build') {
  return `${prefix}-${fingerprint(root, BUILD_PATHS, [process.versions.node.split('.')[0] ?? ''])}`
}

/**
 * @param {string} root
 * @param {string} folder
 */
export function isBuilt(root, folder) {
  return existsSync(join(root, folder, WHOLE))
}

/**
 * @param {string} root
 * @param {string} folder
 * @param {string} logs
 */
export async function build(root, folder, logs) {
  progress('Building the pages (about a minute) …')
  rmSync(join(root, folder), { recursive: true, force: true })
  const log = join(logs, 'build.log')
  const env = {
    NODE_ENV: 'production',
    NEXT_DIST_DIR: folder,
    NEXT_TELEMETRY_DISABLED: '1',
    DATABASE_URL: 'file:/nowhere/no-page-may-be-built-from-data.db',
  }
  const next = join(root, 'node_modules', 'next', 'dist', 'bin', 'next')
  const code = await runLogged(process.execPath, [next, 'build'], { cwd: root, env, log })
  if (code !== 0 || !(await isRestBundled(join(root, folder), log))) {
    rmSync(join(root, folder), { recursive: true, force: true })
    const mend = machineTrouble(root) ?? `what the compiler says is in ${log}`
    throw new StartFailure(`The pages could not be built: ${mend}. The build before and the data are untouched.`)
  }
  writeFileSync(join(root, folder, WHOLE), '')
}

/**
 * Adds what the app's own build does not know: what a taster's phone loads, and what runs in a thread of its own.
 *
 * @param {string} outDir
 * @param {string} log
 */
export async function isRestBundled(outDir, log) {
  // they need a package: loaded once they are installed
  const { bundlePhone } = await import('../phone-bundle.mjs')
  const { bundleWorker } = await import('../worker-bundle.mjs')
  try {
    await Promise.all([bundlePhone(outDir), bundleWorker(outDir)])
    return true
  } catch (error) {
    openLog(log).end(`${error instanceof Error ? error.message : String(error)}\n`)
    return false
  }
}

/**
 * Removes builds that are neither among the newest nor in use.
 *
 * @param {string} root
 * @param {string} present  folder just built
 * @param {ReadonlySet<string>} inUse  folders that a running app serves from
 */
export function tidyBuilds(root, present, inUse) {
  const prefix = present.slice(0, present.lastIndexOf('-') + 1)
  const byAge = readdirSync(root)
    .filter((name) => name.startsWith(prefix) && /^[0-9a-f]{16}$/.test(name.slice(prefix.length)))
    .map((name) => ({ name, at: name === present ? Infinity : statSync(join(root, name)).mtimeMs }))
    .sort((a, b) => b.at - a.at)
  for (const { name } of byAge.slice(KEPT)) {
    if (!inUse.has(name)) rmSync(join(root, name), { recursive: true, force: true })
  }
}
