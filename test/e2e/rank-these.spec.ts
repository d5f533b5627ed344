/**
 * “Three to six cups, in which order?” in a browser: planned at the desk, answered by eleven phones (two of them without a line for a
 * while) and on one sheet of paper, closed and read. What is true was fixed beforehand: R's panel “alone” of
 * test/reference/data/order-panels.json, its B the middle cup, A the weak one, C the strong one: BAC six times, BCA five, ABC once.
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

/** By letter: the demo's trials. */
const TRIALS = { A: '20 g syrup', B: '30 g syrup', C: '40 g syrup' } as const
type Letter = keyof typeof TRIALS
const ORDERS = [...Array<string>(6).fill('BAC'), ...Array<string>(5).fill('BCA'), 'ABC']
const OFFLINE = [3, 8]
const ON_PAPER = 12

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
const spelled = (code: string) => new RegExp(`^${code.split('').join('\\s')}`)
const next = (page: Page) => page.getByRole('button', { name: /^Next/ }).click()

test('the plan offers it, says what is missing, and how likely it is to find the best', async () => {
  const recipe = await db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  await owner.goto(`/panels/new?recipe=${recipe.id}`)
  await owner.getByRole('radio', { name: 'Three to six cups: in which order?' }).check()
  expect(await owner.getByRole('radio', { name: 'Which is liked best?' }).isVisible()).toBe(false)
  expect(await owner.getByLabel('Cups for each taster').isVisible()).toBe(false)
  expect(await owner.getByLabel('It is to find that one is preferred by').isVisible()).toBe(false)
  await owner.getByLabel('Your question').fill('Which of the three do we pour?')
  await owner.getByLabel('Title tasters see').fill('Three cold coffees')
  for (const box of await owner.locator('input[name=cups]').all()) await box.uncheck()
  await owner.getByRole('checkbox', { name: /trial 1$/ }).check()
  await owner.getByRole('checkbox', { name: /trial 2$/ }).check()
  await owner.getByRole('textbox', { name: 'Seats' }).fill('14')
  await owner.getByLabel('It is to find a best cup that is put above any other by').fill('90')
  await owner.getByText('Choose three to six cups: this panel puts them in order.').waitFor()
  await owner.getByRole('checkbox', { name: /trial 3$/ }).check()
  await owner.getByText(/With 14 seats the chance that a best cup, which 90 of 100 put above any other/).waitFor()
  await owner.getByText('3 comparisons share the five per cent that may go wrong.').waitFor()
  await owner.getByText('Rehearse it').click()
  await owner.getByRole('button', { name: 'Play it' }).click()
  await owner.getByText(/of 100 panels like this about \d+ let it stand above all/).waitFor()
  await owner.getByRole('checkbox', { name: /I looked at the cups/ }).check()
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'rank-plan')
  await owner.getByRole('button', { name: 'Keep this plan' }).click()
  await owner.waitForURL(/\/panels\/(?!new)[\w-]+$/)
  panel = new URL(owner.url()).pathname
  await owner
    .getByText(/in which order they like them/)
    .first()
    .waitFor()
  await shoot(owner, 'rank-draft')
  await owner.goto(`${panel}/plan`)
  expect(await owner.getByRole('radio', { name: 'Three to six cups: in which order?' }).isChecked()).toBe(true)
  expect(await owner.getByLabel('It is to find a best cup that is put above any other by').inputValue()).toBe('90')
  await owner.goto(`${panel}/open`)
  await owner.getByText(/What is asked of the 3 together: in which order they like them/).waitFor()
  await owner.getByRole('checkbox', { name: /^What is past its date/ }).check()
  await owner.getByRole('button', { name: 'Yes, open it' }).click()
  await owner.waitForURL(new RegExp(`${panel}$`))
  join = `/join/${(await db.panel.findUniqueOrThrow({ where: { id: id() } })).joinToken}`
})

async function phoneAt(name: string, look: { dark?: boolean } = {}): Promise<Page> {
  const phone = await house.phone({ ...look, expected: /Failed to load resource|ERR_INTERNET_DISCONNECTED/ })
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

/** Of the seat this taster took: the codes of an order of letters, read past the blind. */
async function codesFor(seat: object, order: string): Promise<string[]> {
  const codes: string[] = []
  for (const letter of order) {
    const own = { seat: { panelId: id(), ...seat }, cup: { trial: { name: TRIALS[letter as Letter] } } }
    codes.push((await db.serving.findFirstOrThrow({ where: own })).code)
  }
  return codes
}

async function tasteAll(phone: Page): Promise<void> {
  for (const _ of [1, 2, 3]) await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('heading', { name: /Tap the cups in order/ }).waitFor()
}

const tap = (phone: Page, code: string) => phone.getByRole('button', { name: spelled(code) }).click()
const placeOf = (phone: Page, code: string) =>
  phone
    .getByRole('button', { name: spelled(code) })
    .locator('.place')
    .innerText()

test('a phone shows each place, takes the last tap back, starts over, and keeps nothing but a whole order', async () => {
  const phone = await phoneAt('Wren', { dark: true })
  await tasteAll(phone)
  await phone.getByText('Tap the best one.').waitFor()
  expect(await findAxeViolations(phone)).toEqual([])
  expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  await shoot(phone, 'rank-phone')
  const [best = '', middle = '', last = ''] = await codesFor({ taster: { name: 'Wren' } }, ORDERS[0] ?? '')
  await tap(phone, last)
  await tap(phone, middle)
  await phone.getByRole('button', { name: /^Next/ }).click({ force: true })
  await phone.getByText('Tap every cup first: 1 has no place.').waitFor()
  await tap(phone, last)
  await phone.getByText(/is 1st already/).waitFor()
  await shoot(phone, 'rank-phone-two-placed')
  expect(await db.setAnswer.count({ where: { set: { panelId: id() } } })).toBe(0)
  await phone.getByRole('button', { name: 'Undo last' }).click()
  expect([await placeOf(phone, last), await placeOf(phone, middle)]).toEqual(['1st', ''])
  await phone.getByRole('button', { name: 'Start over' }).click()
  expect(await placeOf(phone, last)).toBe('')
  // what was begun is there again after a side step
  await tap(phone, best)
  await phone.getByRole('button', { name: 'Skip these cups' }).click()
  await phone.getByRole('button', { name: 'Back to the cups' }).click()
  expect(await placeOf(phone, best)).toBe('1st')
  // by keyboard
  await phone.getByRole('button', { name: spelled(last) }).focus()
  await phone.keyboard.press('Enter')
  await tap(phone, middle)
  await phone.getByText('All are in order.').waitFor()
  await phone.getByText('Saved', { exact: true }).waitFor()
  // whole, kept, and taken back: the phone asks again, what was whole stands until another is
  await phone.getByRole('button', { name: 'Undo last' }).click()
  await phone.getByRole('button', { name: 'Undo last' }).click()
  await phone.getByRole('button', { name: /^Next/ }).click({ force: true })
  await phone.getByText('Tap every cup first: 2 have no place.').waitFor()
  await phone.reload()
  await phone.getByRole('heading', { name: /Tap the cups in order/ }).waitFor()
  expect([await placeOf(phone, best), await placeOf(phone, last), await placeOf(phone, middle)]).toEqual([
    '1st',
    '2nd',
    '3rd',
  ])
  for (const _ of [1, 2]) await phone.getByRole('button', { name: 'Undo last' }).click()
  await tap(phone, middle)
  await tap(phone, last)
  await phone.getByText('Saved', { exact: true }).waitFor()
  expect(await findAxeViolations(phone)).toEqual([])
  await shoot(phone, 'rank-phone-whole')
  await next(phone)
  await phone.getByRole('heading', { name: 'Thank you, that was the last cup' }).waitFor()
  await phone.getByText('Everything is saved.').waitFor()
})

test('ten more phones, two of them offline while they answer, and one sheet of paper', async () => {
  for (let at = 2; at < ON_PAPER; at += 1) {
    const phone = await phoneAt(`Taster ${at}`)
    await tasteAll(phone)
    await phone.getByText('Saved', { exact: true }).waitFor()
    if (OFFLINE.includes(at)) await phone.context().setOffline(true)
    for (const code of await codesFor({ taster: { name: `Taster ${at}` } }, ORDERS[at - 1] ?? ''))
      await tap(phone, code)
    await next(phone)
    await phone.getByRole('heading', { name: 'Thank you, that was the last cup' }).waitFor()
    if (OFFLINE.includes(at)) {
      await phone.getByText(/^Waiting for connection, 2 entries/).waitFor()
      await phone.context().setOffline(false)
    }
    await phone.getByText('Everything is saved.').waitFor()
    await phone.context().close()
  }
  await owner.goto(`${panel}/ballots?free=yes`)
  await owner
    .getByText(/In which order do you like them\?/)
    .first()
    .waitFor()
  await owner.emulateMedia({ media: 'print' })
  await shoot(owner, 'rank-ballots-print')
  await owner.emulateMedia({ media: 'screen' })
  await owner.goto(`${panel}/paper?seat=${ON_PAPER}`)
  await owner.getByRole('button', { name: `Seat ${ON_PAPER}`, exact: true }).click()
  await owner.getByLabel('Name on the sheet').fill('Pia')
  for (const box of await owner.getByRole('checkbox').all()) await box.check()
  const codes = await codesFor({ number: ON_PAPER }, ORDERS[ON_PAPER - 1] ?? '')
  const field = (code: string) => owner.getByLabel(new RegExp(`^Place of ${code.split('').join('\\s')}$`))
  for (const [place, code] of codes.entries()) await field(code).selectOption(String(Math.min(place, 1) + 1))
  await owner.getByRole('button', { name: 'Keep this sheet' }).click()
  await owner
    .getByText(/Two cups in place 2\./)
    .first()
    .waitFor()
  expect(await owner.getByLabel('Name on the sheet').inputValue()).toBe('Pia')
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'rank-paper-refused')
  for (const [place, code] of codes.entries()) await field(code).selectOption(String(place + 1))
  await shoot(owner, 'rank-paper')
  await owner.getByRole('button', { name: 'Keep this sheet' }).click()
  await owner.waitForURL(new RegExp(`kept=${ON_PAPER}`))
  await owner.goto(`${panel}/watch`)
  await owner
    .getByText(/12 of 14 seats have finished/)
    .first()
    .waitFor()
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
  expect(all).toContain('"sets":[{"number":1,"positions":[1,2,3]')
  expect(all).toContain(`"${held.seats[0]?.servings[0]?.code}"`)
})

test('closed, it says which is most often put first and stands above all, keeps it, and one decides on it', async () => {
  await owner.goto(`${panel}/close`)
  await owner.getByRole('button', { name: 'Close for good and unblind' }).click()
  await owner.waitForURL(new RegExp(`${panel}$`))
  await owner.goto(`${panel}/result`)
  const sentence = await owner.getByRole('heading', { level: 1 }).innerText()
  expect(sentence).toMatch(
    /^Most often put first is (the house recipe \(cup \w\)|cup \w \(30 g syrup\)), by 11 of 12; more put it above every other cup than chance would\.$/,
  )
  await owner.getByText('Friedman’s exact test of 12 whole orders: p below 0.001.').waitFor()
  await owner.getByText(/after Holm over all 3: .* 12 of 12, p = 0\.001; .* 11 of 12, p = 0\.013;/).waitFor()
  expect(await owner.getByText(/nobody scored|not scored|Mean liking/i).count()).toBe(0)
  expect(await findAxeViolations(owner)).toEqual([])
  await owner.getByText('The same as a table, with what each cup is worth').click()
  const places = owner.getByRole('region', { name: 'How many put each cup at each place' })
  expect(await places.getByRole('row').nth(1).innerText()).toMatch(/30 g syrup[^\d]*1\.08\s+11\s+1\s+0\s/)
  await shoot(owner, 'rank-result')
  const small = await house.phone({ dark: true })
  await small.context().addCookies(await owner.context().cookies())
  await small.goto(`${panel}/result`)
  await shoot(small, 'rank-result-phone')
  expect(await small.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  await owner.goto(`${panel}/sheet`)
  await owner.emulateMedia({ media: 'print' })
  await shoot(owner, 'rank-sheet-print')
  await owner.emulateMedia({ media: 'screen' })
  await owner.goto(`${panel}/decide`)
  await shoot(owner, 'rank-decide')
  await owner.getByRole('radio', { name: /Keep the present house recipe/ }).check()
  await owner.getByLabel('Reason').fill('First by eleven of twelve')
  await owner.getByRole('button', { name: 'Decide' }).click()
  await owner.waitForURL(/\/recipes\//)
  await owner
    .getByText(/The panel said: Most often put first is .*, by 11 of 12;/)
    .first()
    .waitFor()
  await shoot(owner, 'rank-recipe')
  expect(house.complaints).toEqual([])
})
