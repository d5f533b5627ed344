/** The demo's panel “How sweet?”: three cups that are one drink but for their syrup. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { runStats } from '@/lib/commands/stats/run-stats'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { exportDose, readDose } from '@/lib/tasks/result/read-dose'
import { worldOf, type Reader, type World } from '@/lib/tasks/world'
import { freshDatabase } from '../../support/fresh-database'

let fresh: Awaited<ReturnType<typeof freshDatabase>>
let world: World
let reader: Reader

beforeAll(async () => {
  fresh = await freshDatabase()
  world = worldOf(fresh.db)
  await foundDemoHouse(world)
  const { cafeId, userId } = await fresh.db.membership.findFirstOrThrow({ select: { cafeId: true, userId: true } })
  reader = { cafeId, userId, cafe: { currency: 'PHP', currencyDigits: 2, allergenList: 'eu' } }
})
afterAll(() => fresh.close())

const panel = async (title: string) => (await fresh.db.panel.findFirstOrThrow({ where: { title } })).id

test('the amounts are found on the sheets of the day, and the command computes the page’s numbers from the file', async () => {
  const id = await panel('How sweet?')
  const found = await readDose(world, reader, id)
  expect(found?.name).toMatch(/syrup/i)
  expect(found?.cups.map(({ grams }) => grams)).toEqual([20, 30, 40])
  const file = (await exportDose(world, reader, id)) ?? ''
  let out = ''
  const code = await runStats(['dose', 'sipwright-dose.csv'], {
    read: () => new TextEncoder().encode(file),
    out: (text) => (out += text),
    err: (line) => {
      throw new Error(line)
    },
  })
  expect(code).toBe(0)
  expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(found?.answer)))
})

test('two milks are no dose, an open panel says nothing, nor does another café’s', async () => {
  expect(await readDose(world, reader, await panel('Is fresh milk as good?'))).toBeNull()
  // a closed panel without a dose has a file without a line: “not before closing” would be false of it
  expect(await exportDose(world, reader, await panel('Is fresh milk as good?'))).toBe('taster,cup,dose,score\r\n')
  expect(await readDose(world, reader, await panel('Oat drink?'))).toBeNull()
  expect(await exportDose(world, reader, await panel('Oat drink?'))).toBeNull()
  const stranger = { ...reader, cafeId: 'another' }
  expect(await exportDose(world, stranger, await panel('How sweet?'))).toBeNull()
  expect(await readDose(world, stranger, await panel('How sweet?'))).toBeNull()
})
