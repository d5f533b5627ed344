import { chromium, type Page } from 'playwright-core'
import { findChromium } from '../test/chromium.mjs'
import { below, notHere, sayTail, spreadOf, type Measured } from './measure'
import type { Visitor } from './visitor'

const PRESSES = 60
const WARM_UPS = 10
/** longer than any answer that would be bearable, so that one press is never taken for another */
const BETWEEN_MS = 150

/** How soon do the figures of a long sheet follow a key, in a real browser, until they are painted? */
export async function benchTyping(owner: Visitor, address: string, trialId: string): Promise<Measured[]> {
  const what = 'a key pressed in a sheet of 20 lines, preparations three deep, until its figures are painted, median'
  const executablePath = findChromium()
  if (executablePath === null)
    return [notHere({ part: 'drink', what, unit: 'ms', note: 'Chromium is not here: set CHROMIUM_PATH' }, 50)]
  const browser = await chromium.launch({ executablePath, args: ['--headless', '--no-sandbox', '--disable-gpu'] })
  try {
    const context = await browser.newContext({ baseURL: address })
    await context.addCookies(owner.cookies().map((cookie) => ({ ...cookie, url: address })))
    const page = await context.newPage()
    await page.goto(`/trials/${trialId}/edit`)
    const spread = spreadOf((await pressKeys(page)).slice(WARM_UPS))
    return [below({ part: 'drink', what, unit: 'ms', note: sayTail(spread) }, spread.median, 50)]
  } finally {
    await browser.close()
  }
}

async function pressKeys(page: Page): Promise<number[]> {
  await page.getByText('Follows as you type').waitFor()
  const field = page.locator('input[name="lines[0].amount"]')
  const figures = page.locator('section').filter({ hasText: 'Follows as you type' })
  await figures.locator('details').first().waitFor()
  const times = await figures.evaluateHandle((section) => {
    const found: number[] = []
    let pressed: number | null = null
    addEventListener('keydown', (event) => (pressed = event.timeStamp), true)
    new MutationObserver(() => {
      if (pressed === null) return
      const began = pressed
      pressed = null
      // What comes after the next frame's callbacks comes after its paint.
      requestAnimationFrame(() => setTimeout(() => found.push(performance.now() - began)))
    }).observe(section, { subtree: true, childList: true, characterData: true })
    return found
  })
  await field.press('End')
  const before = await times.evaluate((found) => found.splice(0).length)
  if (before > 0) throw new Error('figures changed without a figure typed')
  for (let press = 0; press < PRESSES; press++) {
    await page.keyboard.press(press % 2 ? 'Backspace' : String(1 + (press % 9)))
    await page.waitForTimeout(BETWEEN_MS)
  }
  const all = await times.jsonValue()
  if (all.length !== PRESSES) throw new Error(`${PRESSES} keys were pressed, and figures followed ${all.length} times`)
  return all
}
