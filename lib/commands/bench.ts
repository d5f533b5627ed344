/**
 * Measures the speeds the project promises and prints one JSON object. `npm run bench -- --only stats,drink` measures some.
 * Nothing leaves this machine; everything it writes stands in one temporary folder, which goes with it.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { availableParallelism, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { benchDrink } from './bench/drink'
import type { Measured } from './bench/measure'
import { benchOrders } from './bench/orders'
import { chooseParts, type Part } from './bench/parts'
import { benchServed } from './bench/served'
import { benchStatistics } from './bench/statistics'
import { stopChildren } from './start/child.mjs'

const say = (words: string) => process.stderr.write(`${words}\n`)
const chosen = chooseParts(process.argv.slice(2))
if (!chosen.ok) {
  say(chosen.problem)
  process.exit(2)
}

const folder = mkdtempSync(join(tmpdir(), 'sipwright-bench-'))
const tidy = () => rmSync(folder, { recursive: true, force: true })
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
  process.once(signal, () => void stopChildren().then(() => (tidy(), process.exit(130))))
}
try {
  const before = loadavg()
  const results = await bench(chosen.parts)
  const machine = { cores: availableParallelism(), node: process.version, loadBefore: before, loadAfter: loadavg() }
  process.stdout.write(`${JSON.stringify({ ...machine, results }, null, 2)}\n`)
} finally {
  await stopChildren()
  tidy()
}

async function bench(parts: ReadonlySet<Part>): Promise<Measured[]> {
  const results: Measured[] = []
  if (parts.has('orders')) results.push(...benchOrders())
  if (parts.has('stats')) {
    say('computing, here and in R …')
    results.push(...(await benchStatistics(folder)))
  }
  if (parts.has('drink')) results.push(...benchDrink())
  const isServed = (['drink', 'pages', 'polls', 'phones', 'taster-page', 'noticed', 'rehearsal'] as const).some(
    (part) => parts.has(part),
  )
  if (isServed) results.push(...(await benchServed(parts, folder, say)))
  return results
}
