/** A whole house in a real browser: the built app, Chromium, and a plain-http name that is not localhost. */
import type { Browser, BrowserContext, Page, Response } from 'playwright-core'
import { startApp, type App } from './app'
import { launchBrowser, PATIENCE_MS } from './browser'

export interface House {
  readonly app: App
  readonly browser: Browser
  /** http://cafe.test:PORT, which is no secure context */
  readonly address: string
  /** what the console said and what failed to load, in any page, and nobody expected */
  readonly complaints: string[]
  desk(options?: Look): Promise<Page>
  phone(options?: Look): Promise<Page>
  close(): Promise<void>
}

export interface Look {
  readonly dark?: boolean
  /** messages a test provokes on purpose, such as the browser's own words on a lost connection */
  readonly expected?: RegExp
}

/** what the browser asks for by itself, as a page says */
const PARTS = new Set(['stylesheet', 'script', 'image', 'font', 'manifest'])

export async function openHouse(): Promise<House> {
  const app = await startApp()
  const browser = await launchBrowser(['--host-resolver-rules=MAP cafe.test 127.0.0.1'])
  const address = `http://cafe.test:${app.port}`
  const complaints: string[] = []
  const contexts: BrowserContext[] = []

  async function open(viewport: { width: number; height: number }, isMobile: boolean, look: Look = {}): Promise<Page> {
    const context = await browser.newContext({
      viewport,
      isMobile,
      hasTouch: isMobile,
      colorScheme: look.dark ? 'dark' : 'light',
      baseURL: address,
    })
    contexts.push(context)
    context.setDefaultTimeout(PATIENCE_MS)
    const page = await context.newPage()
    const complain = (words: string) => {
      if (!look.expected?.test(words)) complaints.push(`${page.url()}: ${words}`)
    }
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning')
        complain(`${message.text()} (${message.location().url})`)
    })
    page.on('pageerror', (error) => complain(error.message))
    // What a page is made of is never expected to be missing, whatever the test expects of the page itself.
    page.on('response', (answer) => {
      if (answer.status() >= 400 && PARTS.has(answer.request().resourceType())) void describe(page, answer)
    })
    return page
  }

  /** With what the answer said, for it may not come again. */
  async function describe(page: Page, answer: Response): Promise<void> {
    const where = page.url()
    const said = await answer.text().catch(() => 'no body')
    const head = JSON.stringify(await answer.allHeaders().catch(() => ({})))
    complaints.push(`${where}: ${answer.status()} for ${answer.url()}: ${said.slice(0, 200)} ${head}`)
  }

  return {
    app,
    browser,
    address,
    complaints,
    desk: (look) => open({ width: 1280, height: 900 }, false, look),
    phone: (look) => open({ width: 360, height: 640 }, true, look),
    close: async () => {
      for (const context of contexts) await context.close()
      await browser.close()
      await app.throwAway()
    },
  }
}

export interface Person {
  readonly name: string
  readonly email: string
  readonly password: string
}

export const mara: Person = { name: 'Mara', email: 'mara@ferrysteps.example', password: 'twelve grey gulls' }

/** First run: the owner's account and the café, by the printed link. The owner is signed in then. */
export async function setUp(
  page: Page,
  house: Pick<House, 'app'>,
  start: 'Empty' | 'With the demo café',
): Promise<void> {
  const path = new URL(house.app.setUpLink ?? 'missing:').pathname
  await page.goto(path)
  await page.getByLabel('Your name').fill(mara.name)
  await page.getByLabel('Email').fill(mara.email)
  await page.getByLabel('Password').fill(mara.password)
  await page.getByLabel('Name of the café').fill('Ferry Steps')
  await page.getByRole('radio', { name: start }).check()
  await page.getByRole('button', { name: 'Set up' }).click()
  await page.waitForURL((url) => url.pathname === '/')
}

/** Whoever is signed in on this browser stays so: who has set the house up is. */
export async function signIn(page: Page, person: Pick<Person, 'email' | 'password'> = mara): Promise<void> {
  await page.goto('/sign-in')
  if (new URL(page.url()).pathname === '/') return
  await page.getByLabel('Email').fill(person.email)
  await page.getByLabel('Password').fill(person.password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL((url) => url.pathname === '/')
}

/** Chooses what a line is made of, by typing all of its name. */
export async function choosePart(page: Page, label: string, name: string): Promise<void> {
  const field = page.getByRole('combobox', { name: label, exact: true })
  await field.fill(name)
  await page.getByRole('option', { name, exact: true }).waitFor()
  await field.press('Enter')
}

/** Takes a seat from the panel's address, as a phone does after scanning. */
export async function takeSeat(page: Page, joinPath: string, name: string): Promise<void> {
  await page.goto(joinPath)
  for (const box of await page.getByRole('checkbox').all()) await box.check()
  await page.getByLabel('First name or nickname').fill(name)
  await page.getByRole('button', { name: 'Take a seat' }).click()
  await page.waitForURL(/\/taste$/)
  await page.getByRole('button', { name: 'My tray is here' }).click()
}

/** Scores the cup on the screen with the step of this name, and goes on. */
export async function scoreCup(page: Page, step: string, comment = ''): Promise<void> {
  await page.getByRole('button', { name: /My cup says/ }).click()
  await page.getByRole('button', { name: step, exact: true }).click()
  await page.getByRole('button', { name: /^Next/ }).click()
  if (comment) await page.getByRole('textbox').fill(comment)
  await page.getByRole('button', { name: /^Next/ }).click()
}

/** With SHOTS=1 in the environment, keeps a picture of the page to be looked at. */
export async function shoot(page: Page, name: string): Promise<void> {
  if (process.env['SHOTS'] === '1') await page.screenshot({ path: `.tmp/e2e-shots/${name}.png`, fullPage: true })
}
