import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openHouse, setUp, signIn, type House } from '../support/house'

let house: House
let desk: Page
let recipe: string
let trial: string

beforeAll(async () => {
  house = await openHouse()
  desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  await signIn(desk)
  await desk.goto('/recipes')
  await desk.getByRole('link', { name: /Iced date/ }).click()
  await desk.waitForURL(/recipes\/./)
  recipe = new URL(desk.url()).pathname
  trial = (await desk.getByRole('link', { name: '2. 30 g syrup' }).getAttribute('href')) ?? ''
})
afterAll(() => house.close())

const text = (page: Page) => page.locator('main').innerText()

test('the figures follow while a build is typed, and a slip stays beside its field', async () => {
  await desk.goto(`${trial}/vary`)
  await desk.getByRole('textbox', { name: 'Name' }).fill('Typed')
  await desk.getByRole('button', { name: 'Open its sheet' }).click()
  await desk.waitForURL(/edit/)
  const mass = desk.getByText('Mass', { exact: true }).locator('xpath=ancestor::summary')
  // 30 g syrup + 118.5 g beverage (15 g at 1:10, 2.1 g/g kept) + 64 g milk + 180 g ice, added by hand
  await desk.waitForFunction(() => /392\.5/.test(document.body.innerText))
  await desk.getByLabel('Target').first().fill('40,5')
  await desk.waitForFunction(() => /403\.0/.test(document.body.innerText))
  await mass.click()
  await desk.getByLabel('Target').first().fill('-3')
  await desk.getByRole('button', { name: 'Save the sheet' }).click()
  await desk.getByText('The amount must be more than zero.', { exact: true }).waitFor()
  expect(await desk.getByLabel('Target').first().inputValue()).toBe('-3')
})

test('a line moves up in the build, with all that was typed into it', async () => {
  await desk.goto(`${trial}/vary`)
  await desk.getByRole('textbox', { name: 'Name' }).fill('Reordered')
  await desk.getByRole('button', { name: 'Open its sheet' }).click()
  await desk.waitForURL(/edit/)
  await desk.getByLabel('Target').nth(2).fill('61')
  await desk.getByRole('button', { name: /^Move up line 3/ }).click()
  expect(await desk.getByLabel('Target').nth(1).inputValue()).toBe('61')
  await desk.getByRole('button', { name: 'Save the sheet' }).click()
  await desk.waitForURL(/\/trials\/[^/]+$/)
  const rows = await desk.getByRole('region', { name: 'Lines of the build' }).getByRole('rowheader').allInnerTexts()
  expect(rows.map((row) => row.split(/[ ,]/)[0])).toEqual(['Date-cardamom', 'Evaporated', 'Quay', 'Ice'])
})

test('a trial opens with its glass, and each picture has its name and its table', async () => {
  await desk.goto(trial)
  // 64 g of evaporated milk at 1.065 g/ml, 180 g of ice at 0.9167 g/ml
  await desk
    .getByRole('img', { name: /^The glass in layers .* Evaporated milk, whole 60 ml; ice 196 ml on top$/ })
    .waitFor()
  await desk.getByText('The glass as a table').click()
  const rows = await desk.getByRole('region', { name: 'In the glass' }).getByRole('row').allInnerTexts()
  expect(rows.map((row) => row.split('\t').slice(0, 2).join(' '))).toContain('3 Evaporated milk, whole 60 ml')
  await desk.getByText('The melt as a table').click()
  await desk.getByRole('rowheader', { name: '20 minutes' }).waitFor()
  await desk.getByRole('img', { name: /a glass: .*; packaging 0\.14$/ }).waitFor()
  await desk.getByRole('img', { name: /most advised a day 50 g, better 25 g$/ }).waitFor()
})

test('three buttons hold every other door of a trial, by the keyboard alone', async () => {
  await desk.goto(trial)
  const doors: Record<string, string[]> = {}
  for (const words of ['Make', 'Change', 'Show']) {
    const menu = desk.locator('details', { has: desk.locator('summary', { hasText: words }) }).first()
    await menu.locator('summary').focus()
    await desk.keyboard.press('Enter')
    doors[words] = await menu
      .getByRole('link')
      .evaluateAll((links) => links.map((link) => (link.getAttribute('href') ?? '').replace(/^\/trials\/[^/]+\//, '')))
    await desk.keyboard.press('Escape')
    expect(await menu.getAttribute('open')).toBeNull()
    expect(await menu.locator('summary').evaluate((summary) => summary === document.activeElement)).toBe(true)
  }
  expect(doors).toEqual({
    Make: ['scale', 'make', 'sizes'],
    Change: ['vary', 'ladder', expect.stringMatching(/^instead\//), expect.stringMatching(/^instead\//)],
    Show: ['card', 'file'],
  })
  await desk.getByText('Show', { exact: true }).click()
  await desk.getByLabel('Compare with').selectOption({ label: '1. 20 g syrup' })
  await desk.getByRole('button', { name: 'Compare' }).click()
  await desk.waitForURL(/compare/)
})

test('a ladder makes one draft for each rung, each differing in one thing', async () => {
  await desk.goto(`${trial}/ladder`)
  await desk.getByLabel('Levels').first().fill('20; 25,5')
  await desk.getByRole('button', { name: 'Make these drafts' }).first().click()
  await desk.waitForURL((url) => url.pathname === recipe)
  expect(await text(desk)).toContain('30 g → 25.5 g')
})

test.each([
  ['a4', 595, 842],
  ['letter', 612, 792],
  ['receipt', 227, 1134],
])('the card prints on %s as one page of that size', async (size, width, height) => {
  await desk.goto(`${trial}/card?size=${size}`)
  const pdf = (await desk.pdf({ preferCSSPageSize: true })).toString('latin1')
  const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)]
  expect(boxes).toHaveLength(1)
  expect(Math.abs(Number(boxes[0]?.[1]) - width)).toBeLessThan(2)
  expect(Math.abs(Number(boxes[0]?.[2]) - height)).toBeLessThan(2)
})

test('the card names the version, the panel that chose it, the allergens and the final mass', async () => {
  await desk.goto(`${trial}/card`)
  const card = await desk.locator('article').innerText()
  expect(card).toContain('House recipe 2')
  expect(card).toContain('chosen by the panel “How sweet?”')
  expect(card).toMatch(/Contains: Milk/)
  expect(card).toMatch(/392\.5 ± /)
})

test('beside the scale goes on without a connection, and what was weighed arrives once', async () => {
  const phone = await house.phone({ expected: /ERR_INTERNET_DISCONNECTED|Failed to load/ })
  await signIn(phone)
  await phone.goto(`${trial}/scale`)
  await phone.getByLabel(/Glasses/).selectOption('2')
  await phone.getByRole('button', { name: /begin/ }).click()
  await phone.context().setOffline(true)
  expect(await text(phone)).toContain('60.0')
  const scale = phone.getByLabel(/^The scale reads/)
  await scale.fill('6o,4')
  await phone
    .getByRole('alert')
    .getByText(/number/)
    .waitFor()
  // said to be disabled, and pressed all the same, as a thumb does
  await phone.getByRole('button', { name: 'Mend what was typed first' }).click({ force: true })
  expect(await scale.inputValue()).toBe('6o,4')
  await scale.fill('60,4')
  await phone.getByRole('img', { name: '60.4 g, inside what is right' }).waitFor()
  await phone.getByRole('button', { name: 'Next step' }).click()
  // brewing is a step of its own: 2 × 15 g dry, and a timer that counts
  expect(await text(phone)).toMatch(/Brew .*30 g dry/s)
  await phone.getByRole('button', { name: 'Start the timer' }).click()
  await phone
    .getByRole('timer')
    .getByText(/^\d+:(0[2-9]|[1-5]\d)$/)
    .waitFor()
  await phone.getByRole('button', { name: 'Stop the timer' }).click()
  await phone.getByLabel('Dry coffee').fill('30,2')
  await phone.getByLabel('Temperature').fill('93')
  await phone.getByRole('button', { name: 'Brewed' }).click()
  for (let step = 0; step < 2; step++) await phone.getByRole('button', { name: 'Next step' }).click()
  await phone.getByRole('button', { name: 'Check the total' }).click()
  expect(await text(phone)).toContain('785')
  await phone.getByRole('button', { name: 'Keep what was read off' }).click()
  await phone.getByText('1 weighing waits for the connection.').waitFor()
  await phone.context().setOffline(false)
  await phone.getByText('This weighing is kept in the house, every weight within its tolerance.').waitFor()
  expect(await text(phone)).not.toContain('for the connection')
  await phone.goto(trial)
  await phone.getByText('What the scale showed').click()
  await phone.getByText(/2 glasses: Date-cardamom syrup \(demo\), batch 1 60\.4 g/).waitFor()
  await phone.getByRole('link', { name: 'Who built it, how near, and how well it repeats' }).click()
  await phone.getByText(/Brewed with 30\.2 g dry, at 93 °C, \d+ s\./).waitFor()
  await phone.getByText('This trial is frozen: what it was made with stays.').waitFor()
  expect(await phone.getByRole('button', { name: 'Make these the trial’s weights' }).count()).toBe(0)
})

test('a trial goes out as a file and comes into another recipe with the same figures', async () => {
  const file = await desk.evaluate(async (path) => (await fetch(path)).text(), `${trial}/file`)
  await desk.goto('/recipes/new')
  await desk.getByLabel('Name of the drink').fill('From a file')
  await desk.getByRole('button', { name: 'Start' }).click()
  await desk.waitForURL(/first-trial/)
  const other = new URL(desk.url()).pathname.replace('/first-trial', '')
  await desk.goto(`${other}/import`)
  expect(await text(desk)).toContain('It becomes a new draft')
  await desk.getByLabel('Text of the file').fill(file.replace('"kind"', '"kin"'))
  await desk.getByRole('button', { name: 'Bring it in' }).click()
  await desk.getByText('Please look at the marked fields').waitFor()
  await desk.getByLabel('Text of the file').fill(file)
  await desk.getByRole('button', { name: 'Bring it in' }).click()
  await desk.waitForURL(/\/trials\/[^/]+$/)
  const now = await text(desk)
  await desk.goto(trial)
  const before = await text(desk)
  for (const words of ['Mass', 'Sugars', 'Energy', 'Caffeine']) {
    const line = new RegExp(`^${words}\\n+(.+)$`, 'm')
    expect(line.exec(now)?.[1]).toBe(line.exec(before)?.[1])
  }
  expect(house.complaints).toEqual([])
})

test('the example in the manual is a file the house takes in', async () => {
  await desk.goto(`${recipe}/import`)
  await desk.getByLabel('Text of the file').fill(readFileSync('lib/commands/example-trial.json', 'utf8'))
  await desk.getByRole('button', { name: 'Bring it in' }).click()
  await desk.waitForURL(/\/trials\/[^/]+$/)
  expect(await text(desk)).toContain('Mass')
})
