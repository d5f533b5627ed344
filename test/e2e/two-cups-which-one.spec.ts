/**
 * “Two cups, which one?” in a browser: planned at the desk, answered by ten phones (one of them without a line for a while) and
 * on one sheet of paper, closed and read. What is true was fixed beforehand: ten of eleven prefer the stronger cup.
 * R: binom.test(10, 11)  p = 0.01171875, 58.7 to 99.8 %
 * Every byte that the phones received is searched for what tells which cup is which.
 */
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
const heard: Promise<string>[] = []

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

const id = () => panel.split('/').at(-1) ?? ''

test('the plan offers it, and leaves out what only a scale has', async () => {
  const recipe = await db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  await owner.goto(`/panels/new?recipe=${recipe.id}`)
  await owner.getByRole('radio', { name: 'Two cups: which one?' }).check()
  expect(await owner.getByRole('radio', { name: 'Which is liked best?' }).isVisible()).toBe(false)
  expect(await owner.getByLabel('Cups for each taster').isVisible()).toBe(false)
  await owner.getByLabel('Your question').fill('Which of the two do we pour?')
  await owner.getByLabel('Title tasters see').fill('Two cold coffees')
  for (const box of await owner.locator('input[name=cups]').all()) await box.uncheck()
  await owner.getByRole('checkbox', { name: '40 g syrup' }).check()
  await owner.getByRole('textbox', { name: 'Seats' }).fill('12')
  await owner.getByLabel('It is to find that one is preferred by').fill('75')
  await owner.getByText('Choose two cups: this panel is of two.').waitFor()
  await owner.getByRole('checkbox', { name: '20 g syrup' }).check()
  await owner.getByText('About 30 who prefer one find 75 to 25, four times out of five.').waitFor()
  await owner.getByText('it takes 10 of 12 for one of the two.').waitFor()
  await owner.getByText('Rehearse it').click()
  await owner.getByRole('button', { name: 'Play it' }).click()
  await owner.getByText(/of 100 panels like this about 39 find it, 61 cannot tell, 0 name the wrong one/).waitFor()
  await owner.getByRole('checkbox', { name: /“No preference” may be said/ }).check()
  await owner.getByRole('checkbox', { name: /I looked at the cups/ }).check()
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'choice-plan')
  await owner.getByRole('button', { name: 'Keep this plan' }).click()
  await owner.waitForURL(/\/panels\/(?!new)[\w-]+$/)
  panel = new URL(owner.url()).pathname
  await owner
    .getByText(/which of the two they like better/)
    .first()
    .waitFor()
  await shoot(owner, 'choice-draft')
  await owner.goto(`${panel}/plan`)
  expect(await owner.getByRole('radio', { name: 'Two cups: which one?' }).isChecked()).toBe(true)
  await owner.goto(`${panel}/open`)
  await owner.getByText(/What is asked of the two together: which of the two they like better/).waitFor()
  expect(await owner.getByText('overall liking').count()).toBe(0)
  await owner.getByRole('checkbox', { name: /^What is past its date/ }).check()
  await owner.getByRole('button', { name: 'Yes, open it' }).click()
  await owner.waitForURL(new RegExp(`${panel}$`))
  join = `/join/${(await db.panel.findUniqueOrThrow({ where: { id: id() } })).joinToken}`
})

const spelled = (code: string) => new RegExp(`^${code.split('').join('\\s')}`)
const next = (page: Page) => page.getByRole('button', { name: /^Next/ }).click()

async function phoneAt(name: string): Promise<Page> {
  const phone = await house.phone({ expected: /Failed to load resource|ERR_INTERNET_DISCONNECTED/ })
  phone.on('response', (response) =>
    heard.push(
      Promise.all([response.allHeaders(), response.text().catch(() => '')]).then(
        ([head, body]) => `${response.url()}\n${JSON.stringify(head)}\n${body}`,
        () => '',
      ),
    ),
  )
  await takeSeat(phone, join, name)
  return phone
}

/** Of the seat this taster took: the code of the cup whose trial has this name, read past the blind. */
async function codeFor(name: string, trial: string): Promise<string> {
  const own = { seat: { panelId: id(), taster: { name } }, cup: { trial: { name: trial } } }
  return (await db.serving.findFirstOrThrow({ where: own })).code
}

async function tasteBoth(phone: Page): Promise<void> {
  for (const _ of [1, 2]) await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('heading', { name: 'Which of these two do you like better?' }).waitFor()
}

test('a phone shows both codes, says what is missing, may change its mind until “Next”, and comes back to it', async () => {
  const phone = await phoneAt('Wren')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByText(/^Taste \d\s\d\s\d first\./).waitFor()
  await shoot(phone, 'choice-phone-second-code')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('heading', { name: 'Which of these two do you like better?' }).waitFor()
  await phone.getByRole('button', { name: /^Next/ }).click({ force: true })
  await phone.getByText('Tap one of them first.').waitFor()
  await shoot(phone, 'choice-phone')
  expect(await findAxeViolations(phone)).toEqual([])
  expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  const [weak, strong] = [await codeFor('Wren', '20 g syrup'), await codeFor('Wren', '40 g syrup')]
  await phone.getByRole('button', { name: spelled(weak) }).click()
  await phone.getByRole('button', { name: 'No preference' }).click()
  await phone.getByText('Saved', { exact: true }).waitFor()
  await phone.reload()
  await phone.getByRole('button', { name: 'No preference', pressed: true }).waitFor()
  await phone.getByRole('button', { name: spelled(strong) }).click()
  await phone.getByText('Saved', { exact: true }).waitFor()
  await shoot(phone, 'choice-phone-chosen')
  await next(phone)
  await phone.getByRole('heading', { name: 'Thank you, that was the last cup' }).waitFor()
  await phone.getByText('Everything is saved.').waitFor()
})

test('nine more phones, one of them offline while it answers, and one sheet of paper', async () => {
  for (let at = 2; at <= 10; at += 1) {
    const phone = await phoneAt(`Taster ${at}`)
    await tasteBoth(phone)
    const code = await codeFor(`Taster ${at}`, at === 10 ? '20 g syrup' : '40 g syrup')
    // what was found before is there: two entries wait then, the answer and “Next”
    await phone.getByText('Saved', { exact: true }).waitFor()
    if (at === 5) await phone.context().setOffline(true)
    await phone.getByRole('button', { name: spelled(code) }).click()
    await next(phone)
    await phone.getByRole('heading', { name: 'Thank you, that was the last cup' }).waitFor()
    if (at === 5) {
      await phone.getByText(/^Waiting for connection, 2 entries/).waitFor()
      await phone.context().setOffline(false)
    }
    await phone.getByText('Everything is saved.').waitFor()
  }
  await owner.goto(`${panel}/ballots?free=yes`)
  await owner.getByText('Which of these two do you like better?').first().waitFor()
  await shoot(owner, 'choice-ballots')
  await owner.goto(`${panel}/paper?seat=11`)
  await owner.getByRole('button', { name: 'Seat 11', exact: true }).click()
  await owner.getByLabel('Name on the sheet').fill('Pia')
  for (const box of await owner.getByRole('checkbox').all()) await box.check()
  const own = { seat: { panelId: id(), number: 11 }, cup: { trial: { name: '40 g syrup' } } }
  const { code } = await db.serving.findFirstOrThrow({ where: own })
  await owner.getByLabel('Which of the two is preferred').selectOption(code)
  await shoot(owner, 'choice-paper')
  await owner.getByRole('button', { name: 'Keep this sheet' }).click()
  await owner.waitForURL(/kept=11/)
  await owner.goto(`${panel}/watch`)
  await owner
    .getByText(/11 of 12 seats have finished/)
    .first()
    .waitFor()
  await shoot(owner, 'choice-watch')
})

test('what the phones received tells nothing about which cup is which', async () => {
  const all = (await Promise.all(heard)).join('\n')
  const held = await db.panel.findUniqueOrThrow({
    where: { id: id() },
    include: { cups: { include: { trial: true } }, seats: { include: { servings: true, sets: true } } },
  })
  const ingredients = await db.ingredient.findMany({ select: { id: true, name: true } })
  const needles = [
    ...[held.id, held.recipeId, held.title, held.question, String(held.orderSeed)],
    ...held.cups.flatMap((cup) => [cup.id, cup.trialId, cup.trial.name]),
    ...held.seats.flatMap((seat) => [
      seat.id,
      seat.cardToken,
      ...[...seat.servings, ...seat.sets].map((one) => one.id),
    ]),
    ...ingredients.flatMap((one) => [one.id, one.name]),
  ]
  expect(needles.filter((needle) => needle.length > 3 && all.includes(needle))).toEqual([])
  expect(all).not.toMatch(/jugLetter|trialId|cupId|setId|"design"|isHouse|orderSeed/)
  // what the phones must have been told is in what was heard, so the search is not of nothing
  expect(all).toContain('"sets":[{"number":1,"positions":[1,2]')
  expect(all).toContain(`"${held.seats[0]?.servings[0]?.code}"`)
})

test('closed, it says who prefers which, keeps it, and one decides on it', async () => {
  await owner.goto(`${panel}/close`)
  await owner.getByRole('button', { name: 'Close for good and unblind' }).click()
  await owner.waitForURL(new RegExp(`${panel}$`))
  await owner.goto(`${panel}/result`)
  const sentence = await owner.getByRole('heading', { level: 1 }).innerText()
  expect(sentence).toMatch(/\(40 g syrup\)\)? is preferred to/)
  expect(sentence).toContain('by 10 of the 11 who preferred one, 91 % (59 to 100 %).')
  await owner
    .getByText('Exact two-sided test of those who preferred one: 10 to 1, p = 0.012. Of 11 it takes 10')
    .waitFor()
  expect(await owner.getByText(/nobody scored|not scored|Mean liking/i).count()).toBe(0)
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'choice-result')
  const small = await house.phone()
  await small.context().addCookies(await owner.context().cookies())
  await small.goto(`${panel}/result`)
  await shoot(small, 'choice-result-phone')
  expect(await small.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  await owner.goto(`${panel}/sheet`)
  await shoot(owner, 'choice-sheet')
  await owner.goto(`${panel}/decide`)
  await shoot(owner, 'choice-decide')
  await owner.getByLabel('Which trial, if one is adopted').selectOption({ index: 1 })
  await owner.getByRole('radio', { name: /Adopt a trial/ }).check()
  await owner.getByLabel('Reason').fill('Ten of eleven prefer it')
  await owner.getByRole('button', { name: 'Decide' }).click()
  await owner.waitForURL(/\/recipes\//)
  await shoot(owner, 'choice-recipe')
  expect(house.complaints).toEqual([])
})
