/**
 * `npm start`, `npm run dev`, `npm run demo`, and `--run FILE …` for our other commands.
 *
 * Runs with Node alone, from nothing but the sources: installs, generates, builds and migrates what is out of date, then
 * serves. Whatever goes wrong is said in one line with its mend.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readEnvironment } from '../base/read-environment.mjs'
import { stopChildren } from './start/child.mjs'
import { isNewEnough, readOrder, USAGE } from './start/order.mjs'
import { keepToOwner } from './start/privacy.mjs'
import { houseAt, makeReady } from './start/ready.mjs'
import { outliveLostWords, StartFailure, systemSentence } from './start/say.mjs'
import { prepareDatabase, serve } from './start/serve.mjs'
import { whenStartersGo } from './start/starter.mjs'
import { runTypescript } from './start/typescript.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[/\\]$/, '')

/** @type {(() => void)[]} */
const undo = []

async function main() {
  const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
  if (!isNewEnough(process.version, engines.node)) {
    throw new StartFailure(
      `Node ${engines.node.slice(2)} or newer is needed, this is ${process.version}: install a newer one.`,
    )
  }
  const order = readOrder(process.argv.slice(2))
  if (!order) throw new StartFailure(USAGE)
  const read = readEnvironment(process.env, root)
  if (!read.ok) throw new StartFailure(read.problem)
  const house = houseAt(root)
  keepToOwner(house)

  switch (order.act) {
    case 'prepare':
      await makeReady(house, { pages: true })
      return 0
    case 'run':
    case 'run-apart': {
      await makeReady(house, { pages: false })
      const env = { DATABASE_URL: read.value.databaseUrl }
      if (order.act === 'run') await prepareDatabase(house, env, false)
      return runTypescript(root, order.file, order.args, env)
    }
    default:
      return serve(house, read.value, order.act, (act) => undo.push(act))
  }
}

/** @param {number} code */
async function leave(code) {
  await stopChildren()
  for (const act of undo.splice(0).reverse()) {
    try {
      act()
    } catch (error) {
      process.stderr.write(`${sentence(error)}\n`) // the rest is undone all the same
    }
  }
  process.exit(code)
}

let isStopping = false
function stop() {
  if (isStopping) return
  isStopping = true
  void leave(0)
}

outliveLostWords()
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.on(signal, stop)
whenStartersGo(stop)
// a program that started this one over a channel holds its other end: gone with it
process.once('disconnect', stop)
process.channel?.unref()

try {
  const code = await main()
  if (!isStopping) await leave(code)
} catch (error) {
  if (!isStopping) {
    process.stderr.write(`${sentence(error)}\n`)
    await leave(1)
  }
}

/** @param {unknown} error */
function sentence(error) {
  if (error instanceof StartFailure) return error.message
  const place = error instanceof Error && 'path' in error ? String(error.path) : join(root, '.data')
  return systemSentence(error, place) ?? (error instanceof Error ? (error.stack ?? error.message) : String(error))
}
