import { afterAll, beforeAll, expect, test } from 'vitest'
import { findAxeViolations, findSidewaysScroll } from '../support/axe'
import { openHouse, setUp, signIn, takeSeat, type House } from '../support/house'
import { collectPaths, problemsOf } from '../support/house-paths'

let house: House
let paths: readonly string[]
let join: string

beforeAll(async () => {
  house = await openHouse()
  const desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  await signIn(desk)
  ;({ paths, join } = await collectPaths(desk))
})
afterAll(() => house.close())

const expected = /status of 404/

test('every page of the house meets WCAG 2.2 AA on a phone, in the dark', async () => {
  const page = await house.phone({ dark: true, expected })
  await signIn(page)
  const found: string[] = []
  for (const path of paths) {
    await page.goto(path)
    found.push(...(await problemsOf(page, path)))
  }
  expect(found).toEqual([])
  expect(house.complaints).toEqual([])
})

test('a page that is printed brings its paper and its foot along, and takes them away again', async () => {
  const page = await house.desk()
  await signIn(page)
  const pageRules = () =>
    page.evaluate(() =>
      [...document.styleSheets].flatMap((sheet) =>
        [...sheet.cssRules].filter((rule) => rule instanceof CSSPageRule).map((rule) => rule.cssText),
      ),
    )
  await page.goto(paths.find((path) => path.endsWith('/cards')) ?? 'missing:')
  expect((await pageRules()).join()).toMatch(/margin: 14mm 12mm 18mm/)
  const foot = await page.evaluate(async () => (await fetch('/print.css?foot=Cards"; } * { color: red }')).text())
  expect(foot).toContain('content: "Cards\\22 \\3b  \\7d  \\2a  \\7b  color\\3a  red \\7d "')
  await page.getByRole('link', { name: 'Recipes' }).first().click()
  await page.waitForURL(/\/recipes$/)
  expect(await pageRules()).toEqual([])
})

test('every screen of a taster’s phone meets it too, in both themes', async () => {
  for (const dark of [false, true]) {
    const phone = await house.phone({ dark })
    const found: string[] = []
    const check = async () => {
      found.push(...(await findAxeViolations(phone)))
      if ((await findSidewaysScroll(phone)) > 0) found.push('scrolls sideways')
    }
    await phone.goto(join)
    await check()
    await takeSeat(phone, join, dark ? 'Nox' : 'Lux')
    await check()
    await phone.getByRole('button', { name: /My cup says/ }).click()
    await check()
    await phone.getByRole('button', { name: 'like slightly', exact: true }).click()
    await phone.getByRole('button', { name: /^Next/ }).click()
    await check()
    expect(found).toEqual([])
  }
})

test('all nine steps stand on a small phone at once, each a target for a thumb', async () => {
  const phone = await house.phone()
  await takeSeat(phone, join, 'Thumb')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  const steps = phone.getByRole('button', { name: /like/ })
  expect(await steps.count()).toBe(9)
  const boxes = await Promise.all(Array.from({ length: 9 }, (_, at) => steps.nth(at).boundingBox()))
  for (const box of boxes) {
    expect(box?.height).toBeGreaterThanOrEqual(44)
    expect((box?.y ?? 999) + (box?.height ?? 0)).toBeLessThanOrEqual(640)
  }
  expect(await steps.first().innerText()).toContain('like extremely')
})

test('a whole tasting is done by keyboard alone, one press of Tab after the other', async () => {
  const desk = await house.desk()
  await takeSeat(desk, join, 'Keys')
  const press = async (name: RegExp) => {
    for (let steps = 0; steps < 20; steps++) {
      const words = await desk.evaluate(() => {
        const at = document.activeElement
        return at instanceof HTMLButtonElement ? (at.textContent ?? '').trim() : ''
      })
      if (name.test(words)) return desk.keyboard.press('Enter')
      await desk.keyboard.press('Tab')
    }
    throw new Error(`no press of Tab leads to ${name}`)
  }
  for (const step of [/^like moderately$/, /^dislike slightly$/]) {
    await press(/^My cup says/)
    await press(step)
    await press(/^Next/)
    await press(/^Next/)
  }
  await desk.getByText('Everything is saved.').waitFor()
})

test('text at 200 % loses nothing: the phone’s buttons are reached', async () => {
  const phone = await house.phone()
  await takeSeat(phone, join, 'Large')
  const letters = () =>
    phone
      .locator('button')
      .first()
      .evaluate((one) => parseFloat(getComputedStyle(one).fontSize))
  const usual = await letters()
  await phone.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'))
  expect(await letters()).toBe(2 * usual)
  await phone.getByRole('button', { name: /My cup says/ }).click()
  expect(await findSidewaysScroll(phone)).toBe(0)
  const steps = phone.getByRole('button', { name: /like/ })
  for (let at = 0; at < 9; at++) {
    const step = steps.nth(at)
    await step.scrollIntoViewIfNeeded()
    expect(
      await step.evaluate((one) => one.scrollWidth <= one.clientWidth && one.scrollHeight <= one.clientHeight + 1),
    ).toBe(true)
  }
  await steps.last().click()
  await phone.getByRole('button', { name: /^Next/ }).click()
  await phone.getByRole('textbox').waitFor()
  expect(house.complaints).toEqual([])
})
