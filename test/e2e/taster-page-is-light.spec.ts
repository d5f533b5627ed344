/** How little a taster's phone has to load, and that a slow connection is enough for it. */
import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openDatabase } from '@/lib/db/engine/client'
import { openHouse, setUp, takeSeat, type House } from '../support/house'

let house: House
let join: string

beforeAll(async () => {
  house = await openHouse()
  await setUp(await house.desk(), house, 'With the demo café')
  const db = openDatabase(house.app.databaseUrl)
  join = `/join/${(await db.panel.findFirstOrThrow({ where: { stage: 'open' } })).joinToken}`
  await db.$disconnect()
})
afterAll(() => house.close())

/** Chromium's own slow line: 1.6 Mbit/s down, 750 kbit/s up, 150 ms there and back. */
async function slowDown(phone: Page): Promise<void> {
  const devtools = await phone.context().newCDPSession(phone)
  await devtools.send('Network.enable')
  await devtools.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 150,
    downloadThroughput: 1_600_000 / 8,
    uploadThroughput: 750_000 / 8,
  })
}

test('a phone loads a page, a style and one script of at most 15 kB, whatever kinds of panel there are', async () => {
  const phone = await house.phone()
  const loaded: { type: string; path: string; bytes: Promise<number> }[] = []
  phone.on('response', (response) => {
    const path = new URL(response.url()).pathname
    const bytes = response.body().then(
      (body) => gzipSync(body).length,
      () => 0,
    )
    loaded.push({ type: response.request().resourceType(), path, bytes })
  })
  await takeSeat(phone, join, 'Light')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  const scripts = loaded.filter(({ type }) => type === 'script')
  expect([...new Set(scripts.map(({ path }) => path))]).toEqual(['/taste/taste.js'])
  const weigh = async (some: typeof loaded) =>
    (await Promise.all(some.map(({ bytes }) => bytes))).reduce((a, b) => a + b, 0)
  const script = await weigh(scripts)
  expect(script).toBeGreaterThan(1000)
  expect(script).toBeLessThan(15_000)
  expect(await weigh(loaded)).toBeLessThan(150_000)
})

test('on a slow connection a seat is taken and the first score kept', async () => {
  const phone = await house.phone()
  await slowDown(phone)
  await phone.goto(join)
  for (const box of await phone.getByRole('checkbox').all()) await box.check()
  await phone.getByLabel('First name or nickname').fill('Slow')
  await phone.getByRole('button', { name: 'Take a seat' }).click()
  await phone.getByRole('button', { name: 'My tray is here' }).click()
  await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('button', { name: 'like slightly', exact: true }).click()
  await phone.getByText(/^Saved/).waitFor()
  expect(house.complaints).toEqual([])
})
