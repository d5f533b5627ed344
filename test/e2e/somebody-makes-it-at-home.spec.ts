/** A sheet leaves the house as a file, is opened from a disk with no network asked, and what it writes out is pasted in. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { findAxeViolations, findSidewaysScroll } from '../support/axe'
import { PATIENCE_MS } from '../support/browser'
import { openHouse, setUp, shoot, signIn, type House } from '../support/house'

let house: House
let desk: Page
let folder: string
let home = ''

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-home-'))
  house = await openHouse()
  desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  if (!(await desk.getByRole('link', { name: 'Recipes' }).first().isVisible())) await signIn(desk)
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

const text = (page: Page) => page.locator('main').innerText()

async function takeFile(): Promise<string> {
  const coming = desk.waitForEvent('download')
  await desk.getByRole('link', { name: 'Take it as a file' }).click()
  const file = join(folder, 'sheet.html')
  await (await coming).saveAs(file)
  return file
}

/** Opens the file as somebody does who was sent it. @returns the page, and every request that is no file of this disk */
async function openFromDisk(file: string, dark: boolean) {
  const context = await house.browser.newContext({
    viewport: { width: 360, height: 740 },
    isMobile: true,
    hasTouch: true,
    colorScheme: dark ? 'dark' : 'light',
  })
  context.setDefaultTimeout(PATIENCE_MS)
  const asked: string[] = []
  const refused: string[] = []
  context.on('request', (request) => asked.push(request.url()))
  context.on('requestfailed', (request) => refused.push(`${request.url()}: ${request.failure()?.errorText ?? ''}`))
  const page = await context.newPage()
  const wrong: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') wrong.push(message.text())
  })
  page.on('pageerror', (error) => wrong.push(error.message))
  await page.goto(pathToFileURL(file).href)
  return { page, asked, refused, wrong, close: () => context.close() }
}

test('the owner switches it on, and a sheet of the house recipe is made and taken as a file', async () => {
  await desk.goto('/team')
  await desk.getByRole('button', { name: 'Give sheets out' }).click()
  await desk.getByRole('button', { name: 'Give no more sheets out' }).waitFor()
  await desk.goto('/recipes')
  await desk
    .getByRole('link', { name: /Iced date/ })
    .first()
    .click()
  await desk.getByRole('link', { name: 'From home' }).click()
  await desk.waitForURL(/\/home$/)
  home = new URL(desk.url()).pathname
  await desk.getByRole('button', { name: 'Make a sheet' }).click()
  await desk.getByRole('heading', { name: 'Sheet 1 for home' }).waitFor()
  const said = await text(desk)
  for (const words of [/Evaporated milk/, /Contains: .*Milk/, /Hot syrup/, /not the café’s drink/])
    expect(said).toMatch(words)
  expect(said).not.toMatch(/\bEUR\b|\bmargin\b|\bcosts?\b/i)
  // http alone: nobody at home could reach it
  expect(await desk.getByRole('button', { name: 'Make a link' }).count()).toBe(0)
  await shoot(desk, 'home-sheet-desk')
})

test('the file opens from a disk, asks for nothing, and what it writes out is pasted in, once', async () => {
  const file = await takeFile()
  const { page, asked, wrong, close } = await openFromDisk(file, true)
  expect(asked.filter((url) => url !== pathToFileURL(file).href)).toEqual([])
  expect(await findSidewaysScroll(page)).toBe(0)
  await page.getByRole('button', { name: 'Write it out' }).click()
  await page.getByText('Say how you liked it, or what you changed').waitFor()
  await page.getByLabel('7 like moderately').check()
  await page.getByLabel('What did you change?').fill('Oat drink,\nhalf the syrup <b>& "more"</b>')
  await page.getByLabel(/first name/).fill('Ina')
  await page.getByRole('button', { name: 'Write it out' }).click()
  const written = await page.getByLabel('Your answer, to copy').inputValue()
  expect(written).toMatch(
    /^== Answer from home, form 1 ==\nsheet: [A-Z0-9-]{9}\n[\s\S]*liked: 7 of 9, like moderately\n/,
  )
  await page.getByRole('button', { name: 'Copy it' }).click()
  await page.getByText(/^Copied\.|marked now/).waitFor()
  await shoot(page, 'home-file-phone-dark')
  expect(asked.filter((url) => url !== pathToFileURL(file).href)).toEqual([])
  expect(wrong).toEqual([])
  await close()

  await desk.goto(home)
  await desk.getByLabel('The text that came').fill(written.replace('half', 'all'))
  await desk.getByRole('button', { name: 'Take it in' }).click()
  await desk.getByText('its sum does not agree').first().waitFor()
  await desk.getByLabel('The text that came').fill(`Here it is:\n> ${written.replaceAll('\n', '\n> ')}\nBye`)
  await desk.getByRole('button', { name: 'Take it in' }).click()
  await desk.waitForURL(/taken=new/)
  const read = await text(desk)
  expect(read).toContain('7, like moderately: Ina')
  expect(read).toContain('half the syrup <b>& "more"</b>')
  await shoot(desk, 'home-answers-desk')
  await desk.getByLabel('The text that came').fill(written)
  await desk.getByRole('button', { name: 'Take it in' }).click()
  await desk.waitForURL(/taken=known/)
  expect((await text(desk)).split('like moderately: Ina')).toHaveLength(2)
})

test('the file’s own policy lets nothing else run or be fetched', async () => {
  const file = join(folder, 'sheet.html')
  expect(readFileSync(file, 'utf8')).toContain('default-src')
  const { page, asked, refused, close } = await openFromDisk(file, false)
  const ran = await page.evaluate(async () => {
    const script = document.createElement('script')
    script.textContent = 'window.ran = true'
    document.body.append(script)
    const image = document.createElement('img')
    image.src = 'http://127.0.0.1:9/a.png'
    document.body.append(image)
    const fetched = await fetch('http://127.0.0.1:9/').then(
      () => true,
      () => false,
    )
    return [(window as unknown as { ran?: boolean }).ran ?? false, fetched]
  })
  expect(ran).toEqual([false, false])
  // What the browser was asked for, its policy stopped before anything was sent.
  expect(asked.filter((url) => url.startsWith('http')).map((url) => `${url}: csp`)).toEqual(refused)
  await close()
})

test('in the browser it meets WCAG 2.2 AA, light and dark', async () => {
  for (const dark of [true, false]) {
    const { page, close } = await openFromDisk(join(folder, 'sheet.html'), dark)
    // its policy lets no foreign script in, so it is looked at without it
    await page.setContent(readFileSync(join(folder, 'sheet.html'), 'utf8').replace(/<meta http-equiv[^>]*>/, ''))
    expect(await findAxeViolations(page)).toEqual([])
    await close()
  }
  expect(house.complaints).toEqual([])
})
