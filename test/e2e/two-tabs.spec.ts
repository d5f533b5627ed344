/** A sheet saved elsewhere since it was opened says so and offers both; nothing of either is lost. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { openHouse, setUp, shoot, signIn, type House } from '../support/house'

let house: House
let first: Page
let second: Page
let parent: string
let sheet: string

beforeAll(async () => {
  house = await openHouse()
  first = await house.desk()
  await setUp(first, house, 'With the demo café')
  await signIn(first)
  second = await first.context().newPage()
  await first.goto('/recipes')
  await first.getByRole('link', { name: /Iced date/ }).click()
  await first.waitForURL(/recipes\/./)
  parent = (await first.getByRole('link', { name: '2. 30 g syrup' }).getAttribute('href')) ?? ''
})
afterAll(() => house.close())

beforeEach(async () => {
  await first.goto(`${parent}/vary`)
  await first.getByRole('textbox', { name: 'Name' }).fill('Two tabs')
  await first.getByRole('button', { name: 'Open its sheet' }).click()
  await first.waitForURL(/\/edit$/)
  sheet = new URL(first.url()).pathname
})

const target = (page: Page, line: number) => page.getByLabel('Target').nth(line)
const save = (page: Page) => page.getByRole('button', { name: 'Save the sheet' }).click()
const saved = (page: Page) => page.waitForURL(/\/trials\/[^/]+$/)
const warning = (page: Page) => page.getByText('This was saved elsewhere since you opened it.')
const stored = async () => {
  await first.goto(sheet)
  return {
    name: await first.getByLabel('Name', { exact: true }).inputValue(),
    syrup: await target(first, 0).inputValue(),
  }
}

test('two tabs: the second is told what differs, keeps its name and takes the dose of the first', async () => {
  await second.goto(sheet)
  await target(first, 0).fill('41')
  await save(first)
  await saved(first)

  await second.getByLabel('Name', { exact: true }).fill('A better name')
  await save(second)
  await warning(second).waitFor()
  const differs = second.getByRole('region', { name: 'What differs' })
  await shoot(second, 'saved-elsewhere')
  expect(await differs.getByRole('listitem').count()).toBe(2)
  await differs.getByText('Line 1: Target').waitFor()
  expect(await second.getByLabel('Name', { exact: true }).inputValue()).toBe('A better name')
  expect(await target(second, 0).inputValue()).toBe('30')
  await differs.getByRole('button', { name: /^Keep mine of Name:/ }).click()
  await differs.getByRole('button', { name: /^Take the stored one of Line 1: Target/ }).click()
  await second.waitForFunction(
    () => document.querySelector<HTMLInputElement>('[name="lines[0].amount"]')?.value === '41',
  )
  expect(await second.getByLabel('Name', { exact: true }).inputValue()).toBe('A better name')
  await save(second)
  await saved(second)
  expect(await stored()).toEqual({ name: 'A better name', syrup: '41' })
})

test('the Back button shows an older sheet: saving it is told too, and taking what is stored loses nothing', async () => {
  await target(first, 0).fill('42')
  await save(first)
  await saved(first)
  await first.goBack()
  await first.waitForURL(/\/edit$/)
  // Shown as it was opened, or as it is stored, whichever the browser brings back: what counts is that no word is lost.
  await target(first, 0).fill('12')
  await first.getByLabel('Name', { exact: true }).fill('Back again')
  await second.goto(sheet)
  await target(second, 0).fill('43')
  await save(second)
  await saved(second)

  await save(first)
  await warning(first).waitFor()
  await first.getByRole('button', { name: 'Take all that is stored' }).click()
  await first.waitForFunction(
    () => document.querySelector<HTMLInputElement>('[name="lines[0].amount"]')?.value === '43',
  )
  await first.getByRole('button', { name: 'Keep all of mine' }).click()
  await first.waitForFunction(
    () => document.querySelector<HTMLInputElement>('[name="lines[0].amount"]')?.value === '12',
  )
  expect(await first.getByLabel('Name', { exact: true }).inputValue()).toBe('Back again')
  await save(first)
  await saved(first)
  expect(await stored()).toEqual({ name: 'Back again', syrup: '12' })
})

test('Back to a sheet that was saved from this very page, saved again unseen, undoes nothing', async () => {
  await target(first, 0).fill('44')
  await save(first)
  await saved(first)
  await first.goBack()
  await first.waitForURL(/\/edit$/)
  const shown = await target(first, 0).inputValue()
  await save(first)
  if (shown === '44') await saved(first)
  else {
    await warning(first).waitFor()
    await first.getByRole('button', { name: /^Take the stored one of Line 1: Target/ }).click()
    await first.waitForFunction(
      () => document.querySelector<HTMLInputElement>('[name="lines[0].amount"]')?.value === '44',
    )
    await save(first)
    await saved(first)
  }
  expect((await stored()).syrup).toBe('44')
})

test('a line more in the one tab is offered as a whole', async () => {
  await second.goto(sheet)
  await second.getByRole('button', { name: 'Remove line 4, Ice' }).click()
  await save(second)
  await saved(second)
  await target(first, 0).fill('45')
  await save(first)
  await warning(first).waitFor()
  const differs = first.getByRole('region', { name: 'What differs' })
  await differs.getByText('What goes in, in build order').waitFor()
  await shoot(first, 'saved-elsewhere-lines')
  await differs.getByRole('button', { name: /^Take the stored one/ }).click()
  await first.waitForFunction(() => document.querySelectorAll('[name^="lines["][name$=".amount"]').length === 3)
  expect(await target(first, 0).inputValue()).toBe('30')
  await differs.getByRole('button', { name: /^Keep mine/ }).click()
  await first.waitForFunction(() => document.querySelectorAll('[name^="lines["][name$=".amount"]').length === 4)
  expect(await target(first, 0).inputValue()).toBe('45')
})

test('a number with two readings is asked beside its field, and the words of a refusal stay readable', async () => {
  await target(first, 0).fill('1,500')
  await save(first)
  await first.getByText('“1,500” can be read twice: one point five, or one thousand five hundred?').waitFor()
  expect(await target(first, 0).inputValue()).toBe('1,500')
  await target(first, 0).fill('1.5')
  await save(first)
  await saved(first)
})

test('settings of the café that stay on their page can be saved twice in a row, and from a second tab are told', async () => {
  const saveCafe = (page: Page) => page.locator('form#cafe').getByRole('button', { name: 'Save' }).click()
  const name = (page: Page) => page.getByLabel('Name of the café')
  await first.goto('/team')
  await second.goto('/team')
  for (const wanted of ['Ferry Steps North', 'Ferry Steps South']) {
    await name(first).fill(wanted)
    await saveCafe(first)
    await first.getByRole('banner').getByText(wanted).waitFor()
  }
  await name(second).fill('Ferry Steps')
  await saveCafe(second)
  await warning(second).waitFor()
  await second.getByRole('button', { name: /^Keep mine/ }).click()
  await saveCafe(second)
  await second.getByRole('banner').getByText('Ferry Steps', { exact: true }).waitFor()
  expect(house.complaints).toEqual([])
})
