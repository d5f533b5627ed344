/**
 * A new house, by its set-up link, to an open panel of two trials. What a person has to do is counted as it is done.
 *
 *   a click   every pointer press that is needed: buttons, links, boxes to tick. Arrow keys, Tab and Enter are none.
 *   a field   every value that is typed, chosen or ticked.
 *
 *   step              clicks  fields
 *   set-up            1       name, email, password, café
 *   recipe            2       its name
 *   first trial       4       name; coffee, dose, water; sweetener, dose; milk, amount; ice; three labels read
 *   second trial      5       name; another milk, its label read
 *   plan              3       question, title for tasters, what the eye sees
 *   open              2
 *                     17      23
 */
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { mara, openHouse, shoot, type House } from '../support/house'

let house: House
let desk: Page
beforeAll(async () => {
  house = await openHouse()
  desk = await house.desk()
})
afterAll(() => house.close())

const counted = { clicks: 0, fields: 0 }

async function press(role: 'button' | 'link', name: string | RegExp): Promise<void> {
  counted.clicks++
  await desk.getByRole(role, { name, exact: true }).first().click()
}
async function type(label: string, value: string): Promise<void> {
  counted.fields++
  await desk.getByLabel(label, { exact: true }).fill(value)
}
/** By keyboard: some of its name, and Enter on what is found first. */
async function choose(label: string, typed: string, found: string, place = 0): Promise<void> {
  counted.fields++
  const field = desk.getByRole('combobox', { name: label, exact: true }).nth(place)
  await field.fill(typed)
  await desk.getByRole('option', { name: found }).first().waitFor()
  await field.press('Enter')
  expect(await field.inputValue()).toBe(found)
}
async function tickLabel(names: RegExp, place = 0): Promise<void> {
  counted.fields++
  counted.clicks++
  await desk.getByRole('checkbox', { name: names }).nth(place).check()
}

test('set-up: who makes the house is in it then, and it is empty', async () => {
  await desk.goto(new URL(house.app.setUpLink ?? 'missing:').pathname)
  await type('Your name', mara.name)
  await type('Email', mara.email)
  await type('Password', mara.password)
  await type('Name of the café', 'Ferry Steps')
  await press('button', 'Set up')
  await desk.waitForURL((url) => url.pathname === '/')
  expect(await desk.locator('main').innerText()).toContain('Nothing is here yet.')
})

test('a recipe, and its first trial with three labels read in passing', async () => {
  await press('link', 'Start a recipe')
  await desk.waitForURL(/recipes\/new/)
  await type('Name of the drink', 'Iced date-cardamom coffee')
  await press('button', 'Start')
  await desk.waitForURL(/first-trial/)
  await type('Name', 'Whole milk')
  await choose('Coffee', 'arab', 'Roast coffee, arabica')
  await tickLabel(/it names none of the listed/)
  await type('Dry coffee', '15')
  await type('Water in', '150')
  await choose('Sweetener', 'honey', 'Honey')
  await type('Dose', '20')
  await choose('Milk or plant drink', 'whole', 'Whole milk, 3.25 % fat')
  await type('Amount', '60')
  await type('Ice', '180')
  await tickLabel(/names milk, and none/)
  await tickLabel(/it names none of the listed/, 1)
  await shoot(desk, 'first-trial')
  await press('button', 'Record this trial')
  await desk.waitForURL(/\/trials\/[^/]+$/)
})

test('the second trial is the first with another milk', async () => {
  counted.clicks++
  await desk.getByText('Change', { exact: true }).click()
  await press('link', /^Make another from it/)
  await desk.waitForURL(/vary/)
  await type('Name', 'Oat drink')
  await press('button', 'Open its sheet')
  await desk.waitForURL(/edit/)
  await choose('What', 'oat', 'Oat drink, unsweetened', 2)
  await tickLabel(/names cereals with gluten, and none/)
  await press('button', 'Save the sheet')
  await desk.waitForURL(/\/trials\/[^/]+$/)
  const shown = await desk.locator('main').innerText()
  expect(shown).toMatch(/Oat drink differs from Whole milk/)
  expect(shown).toMatch(/is assumed, the usual of its like/)
})

test('the panel is planned and opened', async () => {
  await press('link', 'Iced date-cardamom coffee')
  await desk.waitForURL(/\/recipes\/[^/]+$/)
  await press('link', 'Plan a panel')
  await desk.waitForURL(/panels\/new/)
  await type('Your question', 'Is oat drink liked as well as milk?')
  await type('Title tasters see', 'Iced coffee, two versions')
  await type('What can be seen through', 'colour: one is a little darker')
  await press('button', 'Keep this plan')
  await desk.waitForURL(/\/panels\/(?!new)[\w-]+$/)
  await press('link', 'Open the panel')
  await desk.getByText('What becomes fixed').waitFor()
  await press('button', 'Yes, open it')
  await desk.getByText('Let tasters in').waitFor()
})

test('it took at most twenty clicks and twenty-five fields', () => {
  expect(counted).toEqual({ clicks: 17, fields: 23 })
})

const lines = () =>
  desk
    .getByRole('combobox', { name: 'What', exact: true })
    .evaluateAll((fields) => fields.map((field) => (field instanceof HTMLInputElement ? field.value : '')))

test('lines are moved, copied, put in and removed by keyboard alone, and what was done can be undone', async () => {
  await desk.goto('/recipes/new')
  await desk.getByLabel('Name of the drink').fill('Date milk')
  await desk.getByRole('button', { name: 'Start' }).click()
  await desk.waitForURL(/first-trial/)
  await desk.getByRole('textbox', { name: 'Name' }).fill('20 g')
  await desk.getByLabel('Method').selectOption('no-coffee')
  await choose('Sweetener', 'honey', 'Honey')
  await desk.getByLabel('Dose').fill('20')
  await choose('Milk or plant drink', 'soy drink', 'Soy drink')
  await desk.getByLabel('Amount').fill('2')
  await desk.getByLabel('Unit', { exact: true }).nth(2).selectOption('us-fl-oz')
  await desk.getByRole('button', { name: 'Record this trial' }).click()
  await desk.waitForURL(/\/trials\/[^/]+$/)
  await desk.getByText('Change', { exact: true }).click()
  await desk.getByRole('link', { name: 'Edit the sheet' }).click()
  await desk.waitForURL(/edit/)
  expect(await lines()).toEqual(['Honey', 'Soy drink'])

  const key = async (name: RegExp) => {
    await desk.getByRole('button', { name }).focus()
    await desk.keyboard.press('Enter')
  }
  await key(/^Move down line 1/)
  expect(await lines()).toEqual(['Soy drink', 'Honey'])
  await desk.getByRole('button', { name: /^Move up line 2/ }).waitFor()
  await key(/^Undo: line 1 moved down/)
  expect(await lines()).toEqual(['Honey', 'Soy drink'])
  await desk.getByLabel('Target').first().fill('25')
  await key(/^Remove line 1/)
  expect(await lines()).toEqual(['Soy drink'])
  // the focus stands where the removal is undone
  await desk.keyboard.press('Enter')
  expect(await lines()).toEqual(['Honey', 'Soy drink'])
  expect(await desk.getByLabel('Target').first().inputValue()).toBe('25')
  await key(/^Insert below line 1/)
  // the focus stands in the new line
  await desk.keyboard.type('vanilla of the house')
  await desk.keyboard.press('Enter')
  expect(await desk.getByLabel('Its name').inputValue()).toBe('vanilla of the house')
  await key(/^Remove line 2/)
  await key(/^Copy line 1/)
  await desk.getByRole('button', { name: /^Remove line 3/ }).waitFor()
  expect(await lines()).toEqual(['Honey', 'Honey', 'Soy drink'])
  expect(await desk.getByLabel('Target').nth(1).inputValue()).toBe('25')
})

test('leaving an unsaved sheet asks, and what was typed is back either way', async () => {
  const sheet = desk.url()
  desk.once('dialog', (question) => void question.dismiss())
  await desk.getByRole('link', { name: 'Date milk' }).click()
  expect(desk.url()).toBe(sheet)
  desk.once('dialog', (question) => {
    expect(question.message()).toContain('not saved')
    void question.accept()
  })
  await desk.getByRole('link', { name: 'Date milk' }).click()
  await desk.waitForURL(/\/recipes\/[^/]+$/)
  await desk.goto(sheet)
  await desk.getByText('What you typed earlier on this device is back.').waitFor()
  await desk.getByRole('button', { name: 'Save the sheet' }).click()
  await desk.waitForURL(/\/trials\/[^/]+$/)
  expect(await desk.locator('main').innerText()).toMatch(/Honey[\s\S]*25[.,]0/)
})

test('no page complained', () => {
  expect(house.complaints).toEqual([])
})
