/**
 * “Can they tell two apart?” in a browser: a triangle with two answers each, planned at the desk, answered by six phones (one of
 * them without a line for a while) and on one sheet of paper, closed and read. What is true was fixed beforehand: six of the
 * seven are right both times, one never.
 * R: binom.test(12, 14, 1/3, alternative = "greater")$p.value  8.216654e-05; qbinom(.95, 14, 1/3) + 1  9
 *    s <- (c(1, 1, 1, 1, 1, 1, 0) - 1/3) * 1.5; mean(s); t.test(s)$conf.int  0.7857143, 0.261376 to 1.310053
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

test('the plan proposes a method, reckons while it is typed, and refuses what can be seen', async () => {
  const recipe = await db.recipe.findFirstOrThrow({ where: { name: 'Iced date-cardamom coffee' } })
  await owner.goto(`/panels/new?recipe=${recipe.id}`)
  await owner.getByRole('radio', { name: 'Can they tell two apart?' }).check()
  expect(await owner.getByRole('radio', { name: 'Which is liked best?' }).isVisible()).toBe(false)
  expect(await owner.getByLabel('It is to find that one is preferred by').isVisible()).toBe(false)
  await owner.getByLabel('Your question').fill('Does the new syrup show?')
  await owner.getByLabel('Title tasters see').fill('Cold coffees')
  for (const box of await owner.locator('input[name=cups]').all()) await box.uncheck()
  await owner.getByRole('checkbox', { name: '40 g syrup' }).check()
  await owner.getByRole('textbox', { name: 'Seats' }).fill('24')
  await owner.getByText('Choose two cups: this panel is of two.').waitFor()
  await owner.getByRole('checkbox', { name: '20 g syrup' }).check()
  await owner.getByText(/^Method proposed: triangle/).waitFor()
  await owner
    .getByText('About 40 tasters find it if 30 in a hundred can really tell, four times out of five.')
    .waitFor()
  await owner.getByText('With 24 seats the chance is 55 %: it takes at least 13 right of 24.').waitFor()
  await owner.getByRole('radio', { name: /^Which one has more of something you name/ }).check()
  await owner.getByText(/^Method proposed: two alternatives/).waitFor()
  await owner.getByRole('radio', { name: /^That few can tell them apart/ }).check()
  await owner.getByText(/^To show that few can tell, ask whether one is different/).waitFor()
  await shoot(owner, 'apart-plan-named')
  await owner.getByRole('radio', { name: /^That they can be told apart/ }).check()
  await owner.getByRole('radio', { name: /^Which one is different/ }).check()
  await owner.getByLabel('Answers from each taster').fill('2')
  await owner.getByRole('textbox', { name: 'Seats' }).fill('8')
  await owner.getByText(/^With 8 seats the chance is \d+ %: it takes at least 9 right of 16\.$/).waitFor()
  await owner.getByText('Rehearse it').click()
  await owner.getByRole('button', { name: 'Play it' }).click()
  await owner.getByText(/^If nobody can: of 100 panels like this about \d say, wrongly, that they can\.$/).waitFor()
  await owner.getByLabel('What can be seen through').fill('The darker syrup')
  await owner.getByRole('button', { name: 'Keep this plan' }).click()
  await owner.getByText(/a cup can be told by eye: then nobody has to taste it/).waitFor()
  await owner.getByLabel('What can be seen through').fill('')
  await owner.getByRole('checkbox', { name: /I looked at the cups/ }).check()
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'apart-plan')
  await owner.getByRole('button', { name: 'Keep this plan' }).click()
  await owner.waitForURL(/\/panels\/(?!new)[\w-]+$/)
  panel = new URL(owner.url()).pathname
  await owner
    .getByText(/It is to be found if 30 in a hundred really can/)
    .first()
    .waitFor()
  await shoot(owner, 'apart-draft')
  await owner.goto(`${panel}/plan`)
  expect(await owner.getByRole('radio', { name: 'Can they tell two apart?' }).isChecked()).toBe(true)
  expect(await owner.getByLabel('Answers from each taster').inputValue()).toBe('2')
  await owner.goto(`${panel}/open`)
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

/** Codes of a set, the odd one and one of the others, read past the blind. */
async function codesAt(seat: object, set: number) {
  const servings = await db.serving.findMany({ where: { panelId: id(), seat, set: { number: set } } })
  const alone = ({ cupId }: { cupId: string }) => servings.filter((one) => one.cupId === cupId).length === 1
  const odd = servings.find(alone)?.code ?? ''
  return { odd, other: servings.find((one) => !alone(one))?.code ?? '' }
}
const codesOf = (name: string, set: number) => codesAt({ taster: { name } }, set)

async function tasteSet(phone: Page): Promise<void> {
  for (const _ of [1, 2, 3]) await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('heading', { name: 'Which one is different?' }).waitFor()
}

test('a phone asks set by set, by keyboard too, may change its mind until “Next”, and comes back to it', async () => {
  const phone = await phoneAt('Wren')
  await tasteSet(phone)
  await phone.getByText('Set 1 of 2: 3 cups, tasted in this order').waitFor()
  await phone.getByRole('button', { name: /^Next/ }).click({ force: true })
  await phone.getByText('Tap one of them first.').waitFor()
  await shoot(phone, 'apart-phone')
  expect(await findAxeViolations(phone)).toEqual([])
  expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  const first = await codesOf('Wren', 1)
  await phone.getByRole('button', { name: spelled(first.other) }).click()
  await phone.getByText('Saved', { exact: true }).waitFor()
  await phone.reload()
  await phone.getByRole('button', { name: spelled(first.other), pressed: true }).waitFor()
  await phone.getByRole('button', { name: spelled(first.odd) }).focus()
  await phone.keyboard.press('Enter')
  await phone.getByRole('button', { name: spelled(first.odd), pressed: true }).waitFor()
  expect(await phone.locator('[aria-pressed=true]').count()).toBe(1)
  await phone.getByText('Saved', { exact: true }).waitFor()
  await shoot(phone, 'apart-phone-chosen')
  await next(phone)
  await tasteSet(phone)
  await phone.getByText('Set 2 of 2: 3 cups, tasted in this order').waitFor()
  await phone.getByRole('button', { name: spelled((await codesOf('Wren', 2)).odd) }).click()
  await next(phone)
  await phone.getByRole('heading', { name: 'Thank you, that was the last cup' }).waitFor()
  await phone.getByText('Everything is saved.').waitFor()
})

test('five more phones, one of them offline while it answers, and one sheet of paper', async () => {
  for (let at = 2; at <= 6; at += 1) {
    const phone = await phoneAt(`Taster ${at}`)
    for (const set of [1, 2]) {
      await tasteSet(phone)
      const { odd, other } = await codesOf(`Taster ${at}`, set)
      await phone.getByText('Saved', { exact: true }).waitFor()
      const isOffline = at === 4 && set === 2
      if (isOffline) await phone.context().setOffline(true)
      await phone.getByRole('button', { name: spelled(at === 6 ? other : odd) }).click()
      await next(phone)
      if (!isOffline) continue
      await phone.getByText(/^Waiting for connection, 2 entries/).waitFor()
      await phone.context().setOffline(false)
    }
    await phone.getByRole('heading', { name: 'Thank you, that was the last cup' }).waitFor()
    await phone.getByText('Everything is saved.').waitFor()
  }
  await owner.goto(`${panel}/ballots?free=yes`)
  await owner.getByText('Which one is different?').first().waitFor()
  await shoot(owner, 'apart-ballots')
  await owner.goto(`${panel}/paper?seat=7`)
  await owner.getByRole('button', { name: 'Seat 7', exact: true }).click()
  await owner.getByLabel('Name on the sheet').fill('Pia')
  for (const box of await owner.getByRole('checkbox').all()) await box.check()
  for (const set of [1, 2]) {
    const { odd } = await codesAt({ number: 7 }, set)
    await owner
      .getByLabel('Which of the three is different')
      .nth(set - 1)
      .selectOption(odd)
  }
  await shoot(owner, 'apart-paper')
  await owner.getByRole('button', { name: 'Keep this sheet' }).click()
  await owner.waitForURL(/kept=7/)
  await owner.goto(`${panel}/mats`)
  await shoot(owner, 'apart-mats')
  await owner.goto(`${panel}/watch`)
  await owner
    .getByText(/7 of 8 seats have finished/)
    .first()
    .waitFor()
  await shoot(owner, 'apart-watch')
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
  expect(all).not.toMatch(/jugLetter|trialId|cupId|setId|pouring"|"design"|isHouse|orderSeed|"correct/)
  // what the phones must have been told is in what was heard, so the search is not of nothing
  expect(all).toContain('"sets":[{"number":1,"positions":[1,2,3]')
  expect(all).toContain('{"kind":"odd","protocol":"triangle","property":null}')
  expect(all).toContain(`"${held.seats[0]?.servings[0]?.code}"`)
})

test('closed, it says that they can tell, keeps it, and one decides on it', async () => {
  await owner.goto(`${panel}/close`)
  await owner.getByRole('button', { name: 'Close for good and unblind' }).click()
  await owner.waitForURL(new RegExp(`${panel}$`))
  await owner.goto(`${panel}/result`)
  const sentence = await owner.getByRole('heading', { level: 1 }).innerText()
  expect(sentence).toMatch(/^Tasters can tell /)
  expect(sentence).toContain(
    '12 of 14 answers were right, where luck gives about 5. About 79 % of tasters can really tell (26 to 100 %).',
  )
  await owner.getByText('Exact one-sided test against luck, one in three: 12 of 14 right, p below 0.001.').waitFor()
  await owner.getByText(/^7 tasters gave 2 answers each\. The test takes all 14/).waitFor()
  expect(await owner.getByText(/nobody scored|not scored|Mean liking/i).count()).toBe(0)
  expect(await findAxeViolations(owner)).toEqual([])
  await shoot(owner, 'apart-result')
  const small = await house.phone()
  await small.context().addCookies(await owner.context().cookies())
  await small.goto(`${panel}/result`)
  await shoot(small, 'apart-result-phone')
  expect(await small.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  await owner.goto(`${panel}/sheet`)
  await shoot(owner, 'apart-sheet')
  await owner.goto(`${panel}/decide`)
  await shoot(owner, 'apart-decide')
  await owner.getByLabel('Which trial, if one is adopted').selectOption({ index: 1 })
  await owner.getByRole('radio', { name: /Adopt a trial/ }).check()
  await owner.getByLabel('Reason').fill('It shows')
  await owner.getByRole('button', { name: 'Decide' }).click()
  await owner.waitForURL(/\/recipes\//)
  expect(house.complaints).toEqual([])
})
