/**
 * Measures the speeds the project promises and prints one JSON object. `npm run bench -- --only stats,drink` runs some parts.
 * Everything stays on this machine and in temporary folders.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { availableParallelism, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { migrate } from '@/lib/db/migrate'
import { theDatabase } from '@/lib/db/client'
import { benchDrink, benchOrders } from './bench/arithmetic'
import { layHistory } from './bench/history'
import type { Measured } from './bench/measure'
import { benchPages, benchPhones, benchTasterPage, startHouse } from './bench/serving'
import { benchStatistics } from './bench/statistics'
import { openRoom } from './bench/open-room'

const all = ['stats', 'orders', 'drink', 'house'] as const
const only = process.argv.indexOf('--only')
const wanted = only < 0 ? [...all] : (process.argv[only + 1] ?? '').split(',')
const unknown = wanted.filter((part) => !all.some((known) => known === part))
if (unknown.length > 0) {
  process.stderr.write(`'${unknown[0]}' is not a part; there are ${all.join(', ')}\n`)
  process.exit(2)
}

const results: Measured[] = []
if (wanted.includes('stats')) results.push(...benchStatistics())
if (wanted.includes('orders')) results.push(...benchOrders())
if (wanted.includes('drink')) results.push(...benchDrink())
if (wanted.includes('house')) results.push(...(await benchHouse()))
process.stdout.write(
  `${JSON.stringify({ cores: availableParallelism(), load: loadavg(), node: process.version, results }, null, 2)}\n`,
)

async function benchHouse(): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-bench-'))
  const url = `file:${join(folder, 'bench.db')}`
  process.env['DATABASE_URL'] = url
  try {
    process.stderr.write('laying 500 panels …\n')
    await migrate(url)
    const laid = await layHistory()
    const joinPath = await openRoom(70)
    await theDatabase().$disconnect()
    const house = await startHouse(url)
    try {
      process.stderr.write('asking pages, then sixty phones for half a minute …\n')
      return [
        ...(await benchPages(house.address, laid)),
        ...(await benchTasterPage(house.address, joinPath)),
        ...(await benchPhones(house.address, joinPath)),
      ]
    } finally {
      await house.stop()
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
