/** A panel that asks more than liking: planned at the desk, answered on a phone and on paper, read with what to change. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { findAxeViolations } from '../support/axe'
import { openHouse, setUp, shoot, takeSeat, type House } from '../support/house'

let house: House
let db: Db
let owner: Page
let panel: string
let join: string

beforeAll(async () => {
  house = await openHouse()
  owner = await house.desk()
  await setUp(owner, house, 'With the demo café')
  db = openDatabase(house.app.databaseUrl)
})
afterAll(async () => {
  await db.$disconnect()
  await house.close()
})

test('the plan asks what is wanted: which fields stand there follows the kind', async () => {
  const recipe = await db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  await owner.goto(`/panels/new?recipe=${recipe.id}`)
  await owner.getByLabel('Your question').fill('What should we change?')
  await owner.getByLabel('Title tasters see').fill('Two cold coffees')
  await owner.getByRole('radio', { name: 'Which is liked best?' }).check()
  const boxes = await owner.locator('input[name=cups]').all()
  for (const box of boxes) await box.uncheck()
  for (const name of ['40 g syrup', '20 g syrup']) await owner.getByRole('checkbox', { name }).check()
  await owner.getByRole('textbox', { name: 'Seats' }).fill('4')
  await owner.getByText('About 28 seconds a cup.').waitFor()

  const row = (at: number) => owner.getByRole('group', { name: `Question ${at}`, exact: true })
  await row(1).getByLabel('Question 1 is about').fill('Sweetness')
  expect(await row(1).getByLabel('Its low end says').isVisible()).toBe(false)
  await row(1).getByLabel('asked as').selectOption('Too little, just right, too much')
  await row(1).getByLabel('Its low end says').fill('not sweet enough')
  await row(1).getByLabel('Its high end says').fill('too sweet')
  await row(2).getByLabel('Question 2 is about').fill('Cardamom')
  await row(2).getByLabel('asked as').selectOption('How strong it is, along a line')
  await row(3).getByLabel('Question 3 is about').fill('Taste')
  await row(3).getByLabel('asked as').selectOption('Words to tick that apply')
  await row(3).getByLabel('Words').fill('nutty')
  await owner.getByText('About 52 seconds a cup.').waitFor()
  await owner.getByRole('checkbox', { name: /I looked at the cups/ }).check()
  await owner.getByRole('button', { name: 'Keep this plan' }).click()
  await row(3).getByText('Give 2 to 14 words to tick, one a line or with commas between.').first().waitFor()
  await shoot(owner, 'plan-questions')
  expect(await row(1).getByLabel('Its low end says').inputValue()).toBe('not sweet enough')
  await row(3).getByLabel('Words').fill('nutty\nfloral\nflat')
  await owner.getByRole('button', { name: 'Keep this plan' }).click()
  await owner.waitForURL(/\/panels\/(?!new)[\w-]+$/)
  panel = new URL(owner.url()).pathname
  await owner.getByText('sweetness (not sweet enough, just right, too sweet)').first().waitFor()

  await owner.goto(`${panel}/plan`)
  expect(await row(3).getByLabel('Words').inputValue()).toBe('nutty\nfloral\nflat')
  expect(await findAxeViolations(owner)).toEqual([])
  await owner.goto(`${panel}/open`)
  await owner.getByRole('checkbox', { name: /^What is past its date/ }).check()
  await owner.getByRole('button', { name: 'Yes, open it' }).click()
  await owner.waitForURL(new RegExp(`${panel}$`))
  join = `/join/${(await db.panel.findUniqueOrThrow({ where: { id: panel.split('/').at(-1) ?? '' } })).joinToken}`
})

const next = (page: Page) => page.getByRole('button', { name: /^Next/ }).click()

test('a phone answers each kind with its thumb, comes back to what stood, and says what is missing', async () => {
  const phone = await house.phone()
  await takeSeat(phone, join, 'Wren')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('button', { name: 'like slightly', exact: true }).click()
  await next(phone)

  await phone.getByRole('heading', { name: 'How is the sweetness?' }).waitFor()
  await shoot(phone, 'phone-just-right')
  await phone.getByRole('button', { name: 'too sweet', exact: true }).click()
  await next(phone)

  await phone.getByRole('heading', { name: 'How strong is the cardamom?' }).waitFor()
  await phone.getByRole('button', { name: /^Next/ }).click({ force: true })
  await phone.getByText('Point at a place on the line first.').waitFor()
  const line = phone.getByRole('slider')
  expect(await line.getAttribute('aria-valuetext')).toBe('not answered yet')
  await shoot(phone, 'phone-line-blank')
  // in the very middle, where the hidden knob stands already
  await line.click()
  await phone.getByText('Saved', { exact: true }).waitFor()
  expect(await line.getAttribute('aria-valuetext')).toMatch(/^(49|50|51) of 100$/)
  await line.focus()
  await phone.keyboard.press('End')
  await shoot(phone, 'phone-line')
  await next(phone)

  await phone.getByRole('heading', { name: 'Taste: which of these apply? Tap all that do.' }).waitFor()
  await phone.getByRole('button', { name: /^Next/ }).click({ force: true })
  await phone.getByText('Tap the words that apply, or “None of these”.').waitFor()
  await phone.getByRole('button', { name: 'floral', exact: true }).click()
  await phone.getByRole('button', { name: 'nutty', exact: true }).click()
  await phone.getByText('Saved', { exact: true }).waitFor()
  const order = await phone.locator('.scale .step').allInnerTexts()
  expect(await findAxeViolations(phone)).toEqual([])
  await shoot(phone, 'phone-words')

  await phone.reload()
  await phone.getByRole('button', { name: 'floral', exact: true, pressed: true }).waitFor()
  await phone.getByRole('button', { name: 'flat', exact: true, pressed: false }).waitFor()
  expect(await phone.locator('.scale .step').allInnerTexts()).toEqual(order)
  await next(phone)
  await next(phone)
  await phone.getByText('Cup 2 of 2').waitFor()
  const stored = await db.score.findMany({
    where: { serving: { seat: { taster: { name: 'Wren' } } } },
    select: { value: true },
    orderBy: { attribute: { position: 'asc' } },
  })
  expect(stored.map(({ value }) => value)).toEqual([6, 4, 100, 3])
})

test('paper is typed in on the same scales, and the result says what each question found', async () => {
  await owner.goto(`${panel}/watch`)
  await owner.getByRole('link', { name: 'Seat 2', exact: true }).click()
  await owner.getByRole('button', { name: 'It goes on on paper' }).click()
  await owner.waitForURL(/paper\?seat=2/)
  await owner.goto(`${panel}/paper?seat=2`)
  await owner.getByLabel('Name on the sheet').fill('Tern')
  for (const name of ['unaffected', 'consent', 'unseen']) await owner.locator(`input[name=${name}]`).check()
  for (const cup of await owner.getByRole('main').locator('section', { hasText: 'Or not scored because' }).all()) {
    await cup.getByLabel('Overall liking').selectOption('7')
    await cup.getByLabel('Sweetness').selectOption('3')
    await cup.getByLabel('Cardamom').fill('40')
    await cup.getByRole('checkbox', { name: 'flat' }).check()
  }
  await shoot(owner, 'paper-questions')
  expect(await findAxeViolations(owner)).toEqual([])
  await owner.getByRole('button', { name: 'Keep this sheet' }).click()
  await owner.waitForURL(/kept=2/)
  await owner.goto(`${panel}/close`)
  await owner.getByRole('button', { name: 'Close for good and unblind' }).click()
  await owner.waitForURL((url) => [panel, `${panel}/result`].includes(url.pathname))
  await owner.goto(`${panel}/result`)
  await owner.getByRole('heading', { name: 'What to change' }).waitFor()
  await owner.getByText('No word is told to set the cups apart.').waitFor()
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'result-what-to-change')
  expect(house.complaints).toEqual([])
})
