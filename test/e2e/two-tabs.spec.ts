/** What was saved elsewhere since a form was opened: in another tab, or before the Back button. Both are offered, nothing is lost. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { openHouse, setUp, shoot, signIn, type House } from '../support/house'

let house: House
let first: Page
let second: Page
let recipe: string

beforeAll(async () => {
  house = await openHouse()
  first = await house.desk()
  await setUp(first, house, 'With the demo café')
  await signIn(first)
  second = await first.context().newPage()
  await first.goto('/recipes')
  recipe = (await first.getByRole('link', { name: 'Iced date-cardamom coffee' }).getAttribute('href')) ?? ''
})
beforeEach(() => {
  house.complaints.length = 0
})
afterAll(() => house.close())

const field = (page: Page, label: string) => page.getByRole('textbox', { name: label, exact: true })
// A tab behind another draws no frames, and a click waits for frames: one comes to the front, as a person would.
const save = async (page: Page) => {
  await page.bringToFront()
  await page.getByRole('button', { name: /^Save( the sheet)?$/ }).click()
}
const told = (page: Page) => page.getByText('This was saved elsewhere since you opened it.').waitFor()

test('two tabs: the second is told, sees both, and saves what it chose', async () => {
  await first.goto(`${recipe}/money`)
  await second.goto(`${recipe}/money`)
  await field(first, 'Menu price, tax included').fill('4.10')
  await save(first)
  await first.waitForURL((url) => url.pathname === recipe)

  await field(second, 'Waste, added to ingredients').fill('7')
  await save(second)
  await told(second)
  await shoot(second, 'two-tabs')
  const differs = second.getByRole('region', { name: 'What differs' })
  const price = differs.getByRole('listitem').filter({ hasText: 'Menu price, tax included' })
  await price.getByRole('button', { name: /^Take the stored one/ }).click()
  const waste = differs.getByRole('listitem').filter({ hasText: 'Waste, added to ingredients' })
  await waste.getByRole('button', { name: /^Keep mine/ }).click()
  expect(await field(second, 'Menu price, tax included').inputValue()).toBe('4.10')
  expect(await field(second, 'Waste, added to ingredients').inputValue()).toBe('7')
  await save(second)
  await second.waitForURL((url) => url.pathname === recipe)

  await second.goto(`${recipe}/money`)
  expect(await field(second, 'Menu price, tax included').inputValue()).toBe('4.10')
  expect(await field(second, 'Waste, added to ingredients').inputValue()).toBe('7')
  expect(house.complaints).toEqual([])
})

test('what differs is called by the labels of its fields, though the tab draws no frames', async () => {
  const third = await first.context().newPage()
  await third.addInitScript(() => {
    window.requestAnimationFrame = () => 0
  })
  await third.goto(`${recipe}/money`)
  await first.bringToFront()
  await first.goto(`${recipe}/money`)
  await field(first, 'Menu price, tax included').fill('4.20')
  await save(first)
  await first.waitForURL((url) => url.pathname === recipe)

  await field(third, 'Waste, added to ingredients').fill('8')
  await save(third)
  await told(third)
  const price = third
    .getByRole('region', { name: 'What differs' })
    .getByText('Menu price, tax included', { exact: true })
  await price.waitFor()
  await third.close()
  expect(house.complaints).toEqual([])
})

test('two tabs add seats: the second is told how many there are, and adds when it is sent again', async () => {
  await first.bringToFront()
  await first.goto('/panels')
  const panel = (await first.getByRole('link', { name: 'Oat drink?' }).first().getAttribute('href')) ?? ''
  await first.goto(panel)
  await second.goto(panel)
  const add = async (page: Page, seats: string) => {
    await page.bringToFront()
    await field(page, 'More seats').fill(seats)
    await page.getByRole('button', { name: 'Add seats' }).click()
  }
  await add(first, '1')
  await first.waitForURL(/#seats$/)
  await add(second, '2')
  await second.getByText('There are 13 seats by now.').waitFor()
  expect(await field(second, 'More seats').inputValue()).toBe('2')
  await second.getByRole('button', { name: 'Add seats' }).click()
  await second.waitForURL(/#seats$/)
  await second.goto(`${panel}/watch`)
  expect(await second.getByRole('link', { name: /^Seat \d+$/ }).count()).toBe(15)
  expect(house.complaints).toEqual([])
})

test('the Back button: a form of before is told of what was saved since, and undoes nothing', async () => {
  await first.bringToFront()
  await first.goto(`${recipe}/money`)
  await field(first, 'Waste, added to ingredients').fill('5')
  await save(first)
  await first.waitForURL((url) => url.pathname === recipe)
  await first.goBack({ waitUntil: 'commit' })
  await field(first, 'Waste, added to ingredients').waitFor()
  // whichever state the browser kept: if it shows the old one, saving it must not bring it back
  await field(first, 'Fixed cost to break even on').fill('900')
  const shown = await field(first, 'Waste, added to ingredients').inputValue()
  await save(first)
  if (shown !== '5') {
    await told(first)
    const waste = first.getByRole('listitem').filter({ hasText: 'Waste, added to ingredients' })
    await waste.getByRole('button', { name: /^Take the stored one/ }).click()
    await save(first)
  }
  await first.waitForURL((url) => url.pathname === recipe)
  await first.goto(`${recipe}/money`)
  expect(await field(first, 'Waste, added to ingredients').inputValue()).toBe('5')
  expect(await field(first, 'Fixed cost to break even on').inputValue()).toBe('900.00')
  expect(house.complaints).toEqual([])
})

test('a sheet with lines: the second tab is told before any line is lost', async () => {
  await first.bringToFront()
  await first.goto(recipe)
  await first
    .getByRole('link', { name: /30 g syrup|20 g syrup/ })
    .first()
    .click()
  await first.waitForURL(/\/trials\//)
  await first.goto(`${new URL(first.url()).pathname}/vary`)
  await field(first, 'Name').fill('Two tabs')
  await first.getByRole('button', { name: 'Open its sheet' }).click()
  await first.waitForURL(/\/edit$/)
  const sheet = new URL(first.url()).pathname
  await second.goto(sheet)
  await first.locator('input[name="lines[0].amount"]').fill('21')
  await save(first)
  await first.waitForURL((url) => `${url.pathname}/edit` === sheet)
  await second.locator('input[name="lines[1].amount"]').fill('33')
  await save(second)
  await told(second)
  expect(await second.locator('input[name="lines[1].amount"]').inputValue()).toBe('33')
  await second
    .getByRole('button', { name: 'Take all that is stored' })
    .or(second.getByRole('button', { name: /^Take the stored one/ }))
    .first()
    .click()
  expect(await second.locator('input[name="lines[0].amount"]').inputValue()).toBe('21')
  expect(house.complaints).toEqual([])
})
