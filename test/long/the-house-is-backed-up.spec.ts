/**
 * The drill: sixty phones score, a backup is made meanwhile, and what was acknowledged before it began is there once when it is
 * restored elsewhere. Waits for what happens, never for a time.
 */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { timeOfBackup } from '@/lib/base/backup-name.mjs'
import { acknowledged, nextScore, sitDown, type Given } from '@/lib/commands/bench/phones'
import { openArchive } from '@/lib/tasks/backup/open-archive'
import { worldOf } from '@/lib/tasks/world'
import { startApp, type App } from '../support/app'
import { freshDatabase, type FreshDatabase } from '../support/fresh-database'
import { layPanel } from '../support/open-panel'

const PHONES = 60

let folder: string
let fresh: FreshDatabase
let app: App
let cardPaths: readonly string[]

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-drill-'))
  fresh = await freshDatabase()
  const { seats } = await layPanel(worldOf(fresh.db), { seats: PHONES })
  cardPaths = seats.map(({ cardToken }) => `/seat/${cardToken}`)
  await fresh.db.$disconnect()
  app = await startApp({ databaseUrl: fresh.url, env: { BACKUPS: join(folder, 'kept') } })
})

afterAll(async () => {
  await app.stop()
  await fresh.close()
  rmSync(folder, { recursive: true, force: true })
})

async function npmRun(words: readonly string[], databaseUrl: string) {
  const env = {
    ...process.env,
    NODE_ENV: 'production' as const,
    DATABASE_URL: databaseUrl,
    BACKUPS: '',
  }
  const child = spawn('npm', ['run', '-s', ...words], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (bytes: Buffer) => (said += bytes.toString()))
  const [code] = await once(child, 'close')
  return { code: code as unknown, said }
}

type Answer = Pick<Given, 'seat' | 'code' | 'attribute' | 'revision'>
const placeOf = ({ seat, code, attribute }: Omit<Answer, 'revision'>) => `${seat} ${code} ${attribute}`
const keyOf = (answer: Answer) => `${placeOf(answer)} ${answer.revision}`

/** Every score in a database file, read with plain SQL. */
function scoresIn(file: string): readonly Given[] {
  const db = new Database(file, { readonly: true })
  const scores = db
    .prepare<[], Given>(
      `SELECT Seat.number AS seat, Serving.code AS code, PanelAttribute.position AS attribute, Score.value, Score.revision
       FROM Score JOIN Serving ON Serving.id = Score.servingId JOIN Seat ON Seat.id = Serving.seatId
       JOIN PanelAttribute ON PanelAttribute.id = Score.attributeId`,
    )
    .all()
  db.close()
  return scores
}

test('every score that was acknowledged before the backup began is there once after a restore elsewhere', async () => {
  const seated = await Promise.all(
    Array.from({ length: PHONES }, (_, at) => sitDown(app.address, cardPaths[at] ?? '', `Taster ${at + 1}`)),
  )
  const sent = new Map<string, number>()
  const stands = new Map<string, Given>()
  let answers = 0
  let isOver = false
  const scoring = seated.map(async ({ visitor, state }, phone) => {
    for (let round = 0; !isOver; round++) {
      const score = nextScore(state, phone, round)
      sent.set(keyOf(score), score.value)
      const message = { ...score, seat: undefined, sitting: state.sitting, key: `drill-${phone}-${round}-key` }
      // every sixth phone sends twice: a double tap, a lost answer
      await Promise.all(Array.from({ length: phone % 6 ? 1 : 2 }, () => acknowledged(visitor, message)))
      stands.set(placeOf(score), score)
      answers++
      await pause(50)
    }
  })
  const until = async (what: () => boolean) => {
    while (!what()) await Promise.race([pause(20), ...scoring])
  }

  await until(() => answers >= 3 * PHONES)
  const before = new Map(stands)
  const answersBefore = answers
  const made = await npmRun(['backup', '--', join(folder, 'drill.zip')], app.databaseUrl)
  const answersMeanwhile = answers - answersBefore
  await until(() => answers >= answersBefore + answersMeanwhile + PHONES)
  isOver = true
  await Promise.all(scoring)

  expect(made).toEqual({ code: 0, said: expect.stringContaining('Backed up and read back: ') })
  expect(answersMeanwhile).toBeGreaterThan(0)
  expect(before.size).toBeGreaterThanOrEqual(2 * PHONES)

  const elsewhere = join(folder, 'elsewhere', 'kiosk.db')
  const back = await npmRun(['restore', '--', join(folder, 'drill.zip')], `file:${elsewhere}`)
  expect(back).toEqual({ code: 0, said: expect.stringContaining(`Restored: ${elsewhere}`) })
  const restored = scoresIn(elsewhere)
  const places = new Map(restored.map((score) => [placeOf(score), score]))
  expect(places.size).toBe(restored.length)
  const lost = [...before.values()].filter((score) => (places.get(placeOf(score))?.revision ?? 0) < score.revision)
  expect(lost).toEqual([])
  expect(restored.filter((score) => sent.get(keyOf(score)) !== score.value)).toEqual([])

  // and the house that was backed up lost nothing by it
  const kept = new Map(scoresIn(fresh.file).map((score) => [placeOf(score), score]))
  expect([...stands].filter(([place, { value }]) => kept.get(place)?.value !== value)).toEqual([])

  const reopened = await startApp({ databaseUrl: `file:${elsewhere}` })
  const cookie =
    seated[0]?.visitor
      .cookies()
      .map(({ name, value }) => `${name}=${value}`)
      .join('; ') ?? ''
  const state = await fetch(`${reopened.address}/taste/state`, { headers: { cookie, connection: 'close' } })
  await reopened.stop()
  expect(await state.json()).toMatchObject({ seat: seated[0]?.state.seat, sitting: seated[0]?.state.sitting })
})

test('a restore is refused while the house runs on the database, whatever is asked for', async () => {
  const before = scoresIn(fresh.file)
  const made = await npmRun(['backup', '--', join(folder, 'running.zip')], app.databaseUrl)
  expect(made).toMatchObject({ code: 0 })
  const { code, said } = await npmRun(['restore', '--', join(folder, 'running.zip'), '--overwrite'], app.databaseUrl)
  expect(code).toBe(1)
  expect(said).toContain(`The house runs on this database (${app.address}`)
  expect(scoresIn(fresh.file)).toEqual(before)
})

test('a house whose folder of backups is set makes one by itself', async () => {
  const kept = join(folder, 'kept')
  while (!app.printed().includes('Backed up and read back: ')) await pause(50)
  const names = existsSync(kept) ? readdirSync(kept) : []
  expect(names).toEqual([expect.stringMatching(/\.zip$/)])
  expect(timeOfBackup(names[0] ?? '')).not.toBeNull()
  const archive = await openArchive(join(kept, names[0] ?? ''))
  expect(archive.manifest.tables.find(({ name }) => name === 'Seat')?.rows).toBe(PHONES)
  archive.close()
})
