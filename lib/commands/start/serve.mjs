import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync, watch } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { backUpEachDay } from './back-up-each-day.mjs'
import { isRestBundled } from './build.mjs'
import { ended, keep } from './child.mjs'
import { takeLock } from './lock.mjs'
import { openLog } from './log.mjs'
import { checkPort, portAnswers } from './port.mjs'
import { makeReady } from './ready.mjs'
import { mayPrintSetUpLink } from './privacy.mjs'
import { addressAndFolder, noteOf, noteRunning } from './running.mjs'
import { errorLine, progress, StartFailure } from './say.mjs'
import { keepSecret } from './secret.mjs'
import { readTypescript } from './typescript.mjs'

const DAY_MS = 24 * 60 * 60 * 1000

/**
 * Serves until it is stopped.
 *
 * @param {import('./ready.mjs').House} house
 * @param {import('../../base/read-environment.mjs').Environment} environment
 * @param {'serve' | 'dev' | 'demo'} act
 * @param {(act: () => void) => void} atEnd  registers what is to be undone when this process stops
 * @returns {Promise<number>} exit code of the server
 */
export async function serve(house, environment, act, atEnd) {
  const { port } = environment
  const address = environment.publicUrl ?? `http://localhost:${port}`
  const database = act === 'demo' ? throwAway(atEnd) : environment.databaseFile

  const lock = lockDatabase(database, address)
  atEnd(lock.release)
  await checkPort(port)
  const folder = await makeReady(house, { pages: act !== 'dev' })
  const running = noteRunning(house.data, address, folder)
  if (running.taken) atEnd(running.release)

  const secret = environment.authSecret ?? keepSecret(join(house.data, 'secret'))
  const env = serverVariables(environment, database, secret, act === 'dev' ? null : folder)
  const setUp = await prepareDatabase(house, env, act !== 'demo' && mayPrintSetUpLink())
  const demo = act === 'demo' ? await layOutDemo(house, env) : null

  await checkPort(port)
  const server = startServer(house, env, act)
  const pids = [server.pid ?? process.pid, process.pid] // stopping the first stops both
  lock.update(pids, noteOf(address, folder))
  if (running.taken) running.update(pids, noteOf(address, folder))

  const gone = new AbortController()
  const end = ended(server).finally(() => gone.abort())
  tidyEachDay(house, env, gone.signal)
  if (await portAnswers(port, gone.signal)) process.stdout.write(`${firstWords(address, setUp, demo)}\n`)
  if (environment.backups && act === 'serve') backUpEachDay(house.root, environment.backups.folder, env, gone.signal)
  return end
}

/**
 * @typedef {import('../prepare').SetUp} SetUp
 *
 * @param {string} address
 * @param {SetUp} setUp
 * @param {string | null} demo
 */
export function firstWords(address, setUp, demo) {
  if (demo !== null) return `The demo café is open at ${address} and is thrown away when you stop it. ${demo}`
  if (setUp.token !== null)
    return `Sipwright is ready at ${address}. Set it up once, here: ${address}/setup/${setUp.token}`
  if (!setUp.isDone)
    return `Sipwright is ready at ${address}. It is not set up yet: run npm run setup-link in a terminal, for a link that is kept nowhere.`
  return `Sipwright is ready at ${address}`
}

/**
 * What the server process is told. NEXTAUTH_URL pins sign-in to one address, so it is set only from PUBLIC_URL: otherwise
 * whoever comes by localhost or by a new address of the machine would be sent elsewhere.
 *
 * @param {import('../../base/read-environment.mjs').Environment} environment
 * @param {string} database
 * @param {string} secret
 * @param {string | null} folder
 * @returns {Record<string, string>}
 */
export function serverVariables(environment, database, secret, folder) {
  return {
    NODE_ENV: folder === null ? 'development' : 'production',
    NEXT_TELEMETRY_DISABLED: '1',
    PORT: String(environment.port),
    DATABASE_URL: `file:${database}`,
    AUTH_SECRET: secret,
    NEXTAUTH_SECRET: secret,
    AUTH_TRUST_HOST: '1',
    ...(folder === null ? {} : { NEXT_DIST_DIR: folder }),
    ...(environment.publicUrl === null ? {} : { NEXTAUTH_URL: environment.publicUrl }),
  }
}

/**
 * Names are forgotten by themselves: at each start, and once a day while the house runs.
 *
 * @param {import('./ready.mjs').House} house
 * @param {Record<string, string>} env
 * @param {AbortSignal} stop
 */
function tidyEachDay(house, env, stop) {
  const timer = setInterval(async () => {
    const { code, errors } = await readTypescript(house.root, 'lib/commands/tidy.ts', [], env)
    if (code !== 0) progress(`Tidying failed and is tried again in a day: ${errorLine(errors)}`)
  }, DAY_MS)
  stop.addEventListener('abort', () => clearInterval(timer))
}

/** @param {(act: () => void) => void} atEnd */
function throwAway(atEnd) {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-demo-'))
  atEnd(() => rmSync(folder, { recursive: true, force: true }))
  return join(folder, 'demo.db')
}

/**
 * @param {string} database
 * @param {string} address
 */
function lockDatabase(database, address) {
  const lock = takeLock(`${database}.lock`, noteOf(address, ''))
  if (lock.taken) return lock
  const other = addressAndFolder(lock.holder.note)
  const state = other.folder === '' ? 'is being started for' : 'is served already at'
  throw new StartFailure(
    `This café ${state} ${other.address} (process ${lock.holder.pids[0]}): use that one, or stop it first.`,
  )
}

/**
 * @param {import('./ready.mjs').House} house
 * @param {Record<string, string>} env
 * @param {boolean} offers  a set-up link, while nobody has an account
 * @returns {Promise<SetUp>}
 */
export async function prepareDatabase(house, env, offers) {
  const words = offers ? ['--offer-set-up'] : []
  const { code, output, errors } = await readTypescript(house.root, 'lib/commands/prepare.ts', words, env)
  if (code !== 0) throw new StartFailure(`The database could not be looked at: ${errorLine(errors)}`)
  /** @type {import('../prepare').Prepared} */
  const prepared = JSON.parse(lastLine(output))
  if (!prepared.ok) throw new StartFailure(prepared.problem)
  if (prepared.copy !== null)
    progress(`The database was brought up to date; as it was before, it is kept in ${prepared.copy}`)
  if (prepared.untidied !== null)
    progress(`Names whose time is over could not be taken out just now: ${prepared.untidied}`)
  return prepared.setUp
}

/**
 * @param {import('./ready.mjs').House} house
 * @param {Record<string, string>} env
 * @returns {Promise<string>} the line that says how to sign in
 */
async function layOutDemo(house, env) {
  const { code, output, errors } = await readTypescript(house.root, 'lib/commands/demo.ts', [], env)
  if (code !== 0) throw new StartFailure(`The demo café could not be laid out: ${errorLine(errors)}`)
  return output.trim()
}

/**
 * @param {import('./ready.mjs').House} house
 * @param {Record<string, string>} env
 * @param {'serve' | 'dev' | 'demo'} act
 */
function startServer(house, env, act) {
  const words = [fileURLToPath(new URL('../door/main.mjs', import.meta.url))]
  const how = { cwd: house.root, env: { ...process.env, ...env } }
  if (act === 'dev') {
    bundleRestAtEveryChange(house)
    return keep(spawn(process.execPath, words, { ...how, stdio: ['inherit', 'inherit', 'inherit', 'ipc'] }))
  }
  const server = keep(spawn(process.execPath, words, { ...how, stdio: ['ignore', 'pipe', 'inherit', 'ipc'] }))
  server.stdout?.pipe(openLog(join(house.logs, 'server.log')))
  return server
}

/**
 * `next dev` does not know the phone's own script and style sheet, nor what runs in a thread of its own.
 *
 * @param {import('./ready.mjs').House} house
 */
function bundleRestAtEveryChange({ root, logs }) {
  const log = join(logs, 'phone.log')
  const outDir = join(root, process.env.NEXT_DIST_DIR || '.next')
  const bundle = async () => {
    if (!(await isRestBundled(outDir, log)))
      progress(`The phone's script, or a worker's, does not compile (log: ${log}).`)
  }
  void bundle()
  for (const folder of ['app/taste/phone', 'lib/stats', 'lib/tasks/plan'])
    watch(join(root, folder), { recursive: true }, () => void bundle())
}

/** @param {string} text */
function lastLine(text) {
  return text.trim().split('\n').at(-1) ?? ''
}
