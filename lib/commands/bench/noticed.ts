import { chromium, type Browser } from 'playwright-core'
import { findChromium } from '../test/chromium.mjs'
import { startHouse, type ServedHouse } from './house'
import { below, millisecondsFrom, notHere, type Measured } from './measure'
import type { OpenRoom } from './open-room'
import type { Visitor } from './visitor'

const part = 'noticed'
const PATIENCE_MS = 60_000

/** A start as somebody waits for it who opens the café: everything is built, the house was stopped before. */
export async function benchStart(databaseUrl: string): Promise<{ measured: Measured; house: ServedHouse }> {
  await (await startHouse(databaseUrl)).stop() // may build
  const began = performance.now()
  const house = await startHouse(databaseUrl)
  const what = 'a start with everything built, until the address is printed'
  return { measured: below({ part, what, unit: 'ms' }, millisecondsFrom(began), 5000), house }
}

/** What two people wait for: a taster for the first score on a slow line, whoever watches for that score. */
export async function benchNoticed(owner: Visitor, address: string, room: OpenRoom): Promise<Measured[]> {
  const first = {
    part,
    what: 'on a slow line, from "Take a seat" until the first score is given',
    unit: 'ms',
    note: '1.6 Mbit/s down, 750 kbit/s up, 150 ms there and back',
  } as const
  const watched = { part, what: 'from a score kept until the watching page shows it', unit: 'ms' } as const
  const executablePath = findChromium()
  if (executablePath === null) return [notHere(first, 2000), notHere(watched, 2000)]
  const browser = await chromium.launch({ executablePath, args: ['--headless', '--no-sandbox', '--disable-gpu'] })
  try {
    const watching = await openPage(browser, address, owner)
    await watching.goto(`/panels/${room.panelId}/watch`)

    const phone = await openPage(browser, address)
    await slowDown(phone)
    await phone.goto(room.joinPath)
    for (const box of await phone.getByRole('checkbox').all()) await box.check()
    await phone.getByLabel('First name or nickname').fill('Slow')
    const began = performance.now()
    await phone.getByRole('button', { name: 'Take a seat' }).click()
    await phone.getByRole('button', { name: 'My tray is here' }).click()
    await phone.getByRole('button', { name: /My cup says/ }).click()
    await phone.getByRole('button', { name: 'like slightly', exact: true }).click()
    const given = millisecondsFrom(began)

    await phone.getByText(/^Saved/).waitFor()
    const kept = performance.now()
    await watching.getByRole('row').filter({ hasText: 'Slow' }).filter({ hasText: '1 of 2' }).waitFor()
    return [below(first, given, 2000), below(watched, millisecondsFrom(kept), 2000)]
  } finally {
    await browser.close()
  }
}

async function openPage(browser: Browser, address: string, as?: Visitor) {
  const context = await browser.newContext({ baseURL: address })
  context.setDefaultTimeout(PATIENCE_MS)
  if (as) await context.addCookies(as.cookies().map((cookie) => ({ ...cookie, url: address })))
  return context.newPage()
}

async function slowDown(phone: Awaited<ReturnType<typeof openPage>>): Promise<void> {
  const devtools = await phone.context().newCDPSession(phone)
  await devtools.send('Network.enable')
  await devtools.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 150,
    downloadThroughput: 1_600_000 / 8,
    uploadThroughput: 750_000 / 8,
  })
}
