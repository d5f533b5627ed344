import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { delimiter, dirname, join } from 'node:path'
import { fingerprint, INSTALL_PATHS, nodeAbi } from './fingerprint.mjs'
import { machineTrouble, runLogged } from './child.mjs'
import { progress, StartFailure } from './say.mjs'

/** @param {string} root */
const stampFile = (root) => join(root, 'node_modules', '.cache', 'sipwright', 'installed')

/**
 * True when node_modules is what the lock file asks for, compiled for this Node.
 *
 * @param {string} root
 */
export function isInstalled(root) {
  const wanted = fingerprint(root, INSTALL_PATHS, [nodeAbi()])
  if (existsSync(stampFile(root)) && readFileSync(stampFile(root), 'utf8') === wanted) return true
  // installed by hand: believe it if npm's own record agrees and the compiled package loads
  const [asked, has] = ['package-lock.json', 'node_modules/.package-lock.json'].map((path) =>
    readLock(join(root, path)),
  )
  if (!asked || !has || !holdsAll(asked, has) || !compiledPackageLoads(root)) return false
  writeStamp(root, wanted)
  return true
}

/**
 * @param {string} root
 * @param {string} logs
 */
export async function install(root, logs) {
  progress('Installing packages (the first time takes a few minutes) …')
  const log = join(logs, 'install.log')
  const npm = process.env.npm_execpath
  const words = ['ci', '--include=dev', '--loglevel=error', '--no-audit', '--no-fund']
  const how = { cwd: root, env: headersBesideNode(), log }
  const code = npm ? await runLogged(process.execPath, [npm, ...words], how) : await runLogged('npm', words, how)
  if (code !== 0) {
    const mend = machineTrouble(root) ?? missingCompiler() ?? 'check the network, then start again'
    throw new StartFailure(`The packages could not be installed: ${mend} (log: ${log}).`)
  }
  if (!compiledPackageLoads(root)) {
    throw new StartFailure(
      `A compiled package does not load with Node ${process.version}: remove node_modules and start again (log: ${log}).`,
    )
  }
  writeStamp(root, fingerprint(root, INSTALL_PATHS, [nodeAbi()]))
}

/**
 * Every package that the lock file asks for is there in the version it asks for; optional ones may be missing.
 *
 * @param {Lock} asked  package-lock.json
 * @param {Lock} has  npm's record of what lies in node_modules
 */
export function holdsAll(asked, has) {
  return Object.entries(asked.packages).every(([path, wanted]) => {
    if (path === '' || wanted.link) return true
    const found = has.packages[path]
    return found ? found.version === wanted.version : wanted.optional === true || wanted.devOptional === true
  })
}

/** @typedef {{ packages: Record<string, { version?: string, optional?: boolean, devOptional?: boolean, link?: boolean }> }} Lock */

/**
 * Compiling needs Node's headers. Where they lie beside Node itself they are used; elsewhere npm fetches them.
 *
 * @param {string} [node]  path of the Node that runs
 * @returns {Record<string, string>}
 */
export function headersBesideNode(node = process.execPath) {
  if (process.env.npm_config_nodedir) return {}
  const prefix = dirname(dirname(node))
  const file = join(prefix, 'include', 'node', 'node_version.h')
  if (!existsSync(file)) return {}
  const text = readFileSync(file, 'utf8')
  const part = (/** @type {string} */ name) => new RegExp(`#define NODE_${name}_VERSION (\\d+)`).exec(text)?.[1]
  const version = `v${part('MAJOR')}.${part('MINOR')}.${part('PATCH')}`
  return version === process.version ? { npm_config_nodedir: prefix } : {}
}

/** @param {string} file */
function readLock(file) {
  if (!existsSync(file)) return null
  try {
    const lock = JSON.parse(readFileSync(file, 'utf8'))
    return lock && typeof lock.packages === 'object' ? /** @type {Lock} */ (lock) : null
  } catch {
    return null // written half: install anew
  }
}

/** @param {string} root */
function compiledPackageLoads(root) {
  const words = ['-e', `new (require('better-sqlite3'))(':memory:').close()`]
  return spawnSync(process.execPath, words, { cwd: root, stdio: 'ignore' }).status === 0
}

/**
 * @param {string} root
 * @param {string} text
 */
function writeStamp(root, text) {
  mkdirSync(dirname(stampFile(root)), { recursive: true })
  writeFileSync(stampFile(root), text)
}

function missingCompiler() {
  if (process.platform === 'win32') return null
  const folders = (process.env.PATH ?? '').split(delimiter)
  const isThere = (/** @type {string[]} */ names) =>
    names.some((name) => folders.some((folder) => existsSync(join(folder, name))))
  const needs = [
    ['c++', 'g++', 'clang++'],
    ['make', 'gmake'],
    ['python3', 'python'],
  ]
  const missing = needs.filter((names) => !isThere(names)).map((names) => names[0])
  if (missing.length === 0) return null
  return `${missing.join(' and ')} missing, needed to compile the database driver; on Debian: apt-get install build-essential python3`
}
