/** `npm run dev` compiles each page by itself, by other rules than a build: what a build lets pass can fail here. */
import { rmSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openDatabase } from '@/lib/db/engine/client'
import { startApp, type App } from '../support/app'
import { launchBrowser, PATIENCE_MS } from '../support/browser'
import { setUp, signIn, takeSeat } from '../support/house'

/** of its own, so that a developer's own server beside it keeps running */
const FOLDER = '.next-e2e-dev'

let app: App
let browser: Browser
const complaints: string[] = []

beforeAll(async () => {
  app = await startApp({ words: ['--dev'], env: { NEXT_DIST_DIR: FOLDER } })
  browser = await launchBrowser()
})

afterAll(async () => {
  await browser.close()
  await app.throwAway()
  rmSync(FOLDER, { recursive: true, force: true }) // 400 MB
})

async function newPage(): Promise<Page> {
  const context = await browser.newContext({ baseURL: app.address })
  context.setDefaultTimeout(PATIENCE_MS)
  const page = await context.newPage()
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning')
      complaints.push(`${page.url()}: ${message.text()} (${message.location().url})`)
  })
  page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`))
  return page
}

/** Goes where the first link on the page goes whose path looks so. */
async function follow(page: Page, path: RegExp): Promise<void> {
  const links = await page.locator('a[href]').evaluateAll((all) => all.map((one) => one.getAttribute('href') ?? ''))
  const link = links.find((one) => path.test(one))
  expect(link, `a link like ${path} on ${page.url()}`).toBeDefined()
  expect((await page.goto(link ?? ''))?.status(), link).toBe(200)
}

test('home, a recipe, a trial, a result and the store open, and a taster takes a seat', async () => {
  const desk = await newPage()
  await setUp(desk, { app }, 'With the demo café')
  await signIn(desk)
  expect((await desk.goto('/'))?.status()).toBe(200)
  await follow(desk, /^\/store$/)
  await desk.goto('/')
  await follow(desk, /^\/recipes$/)
  await follow(desk, /^\/recipes\/(?!new$)[^/]+$/)
  await follow(desk, /^\/trials\/[^/]+$/)
  await desk.goto('/')
  await follow(desk, /^\/panels\/[^/]+\/result$/)
  await desk.goto('/')
  await follow(desk, /^\/panels\/(?!new$)[^/]+$/)
  await follow(desk, /^\/panels\/[^/]+\/phones$/)
  const db = openDatabase(app.databaseUrl)
  const { joinToken } = await db.panel.findFirstOrThrow({ where: { stage: 'open' } })
  await db.$disconnect()
  await takeSeat(await newPage(), `/join/${joinToken}`, 'Ida')
  expect(complaints).toEqual([])
})
