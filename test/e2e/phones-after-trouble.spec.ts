/** Phones when the café's computer is in trouble, and two pages of one seat: what they say is what is so. */
import Database from 'better-sqlite3'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { openHouse, scoreCup, setUp, shoot, takeSeat, type House } from '../support/house'

let house: House
let db: Db
let join: string

beforeAll(async () => {
  house = await openHouse()
  await setUp(await house.desk(), house, 'With the demo café')
  db = openDatabase(house.app.databaseUrl)
  join = `/join/${(await db.panel.findFirstOrThrow({ where: { stage: 'open' } })).joinToken}`
})
afterAll(async () => {
  await db.$disconnect()
  await house.close()
})

const step = (page: Page, words: string) => page.getByRole('button', { name: words, exact: true })
const pressed = (page: Page, words: string) =>
  page.getByRole('button', { name: words, exact: true, pressed: true }).waitFor()
const saved = (page: Page) => page.getByText(/^Saved$/).waitFor()

/** Takes a seat, with the first cup in the hand. */
async function atFirstQuestion(page: Page, name: string): Promise<void> {
  await takeSeat(page, join, name)
  await page.getByRole('button', { name: /My cup says/ }).click()
  await saved(page)
}

const scoresOf = (name: string) =>
  db.score.findMany({
    where: { serving: { seat: { taster: { name } } } },
    select: { value: true, revision: true, serving: { select: { lockedAt: true } } },
  })

test('while the database is held, the phone says that the computer did not manage it, by its number, and sends again by itself', async () => {
  const phone = await house.phone({ expected: /status of 503/ })
  await atFirstQuestion(phone, 'Fay')
  const faults: string[] = []
  phone.on('response', (response) => {
    if (response.status() !== 503) return
    void response.json().then((said: { words: string }) => faults.push(said.words))
  })
  const said = await phone.evaluateHandle(() => {
    const words: string[] = []
    const line = document.querySelector('.saved')
    if (line) new MutationObserver(() => words.push(line.textContent ?? '')).observe(line, { childList: true })
    return words
  })
  const holder = new Database(house.app.databaseUrl.replace(/^file:/, ''))
  try {
    holder.exec('BEGIN IMMEDIATE')
    await step(phone, 'like slightly').click()
    await phone.getByText(/did not manage that \(fault [\w-]+\)\. 1 entry kept, sent again by itself\.$/).waitFor()
    await shoot(phone, 'phone-in-trouble')
    expect(faults.some((words) => /\(fault [\w-]+\)/.test(words))).toBe(true)
  } finally {
    holder.exec('ROLLBACK')
    holder.close()
  }
  await saved(phone)
  const lines = await said.jsonValue()
  expect(lines.filter((line) => /connection/.test(line))).toEqual([])
  expect(faults.some((words) => lines.some((line) => line.startsWith(words)))).toBe(true)
  expect(await scoresOf('Fay')).toMatchObject([{ value: 6, revision: 1 }])
})

test('two pages of one seat show the same answer, and the same cup', async () => {
  const first = await house.phone()
  await atFirstQuestion(first, 'Two')
  const second = await first.context().newPage()
  await second.goto('/taste')
  await step(second, 'like extremely').waitFor()

  await first.bringToFront()
  await step(first, 'like extremely').click()
  await pressed(second, 'like extremely')
  await saved(first)
  await saved(second)
  await second.bringToFront()
  await step(second, 'dislike extremely').click()
  await pressed(first, 'dislike extremely')
  await saved(first)
  await saved(second)
  expect(await scoresOf('Two')).toMatchObject([{ value: 1, revision: 2 }])

  await first.bringToFront()
  await first.getByRole('button', { name: /^Next/ }).click()
  await first.getByRole('button', { name: /^Next/ }).click()
  await second.getByText('Cup 2 of 2').waitFor()
  await saved(second)
  expect(await scoresOf('Two')).toMatchObject([{ value: 1, serving: { lockedAt: expect.any(Date) as Date } }])
  await second.bringToFront()
  await second.getByRole('button', { name: /My cup says/ }).click()
  await step(first, 'like slightly').waitFor()
  expect(house.complaints).toEqual([])
})

test('where pages share nothing, the one whose answer came too late shows the answer that is kept', async () => {
  const first = await house.phone()
  await first.context().addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { value: undefined })
    Object.defineProperty(window, 'BroadcastChannel', { value: undefined })
  })
  await atFirstQuestion(first, 'Apart')
  const second = await first.context().newPage()
  await second.goto('/taste')
  await step(second, 'like extremely').waitFor()
  await first.bringToFront()
  await step(first, 'like extremely').click()
  await saved(first)
  await second.bringToFront()
  await step(second, 'dislike extremely').click()
  await pressed(second, 'like extremely')
  await saved(second)
  expect(await scoresOf('Apart')).toMatchObject([{ value: 9, revision: 1 }])
  expect(house.complaints).toEqual([])
})

test('the question whether to pass a phone on closes after a minute, and waits ten seconds for its answer', async () => {
  const phone = await house.phone()
  await phone.clock.install()
  await takeSeat(phone, join, 'Pass')
  await scoreCup(phone, 'like slightly')
  await scoreCup(phone, 'like slightly')
  await phone.getByText('Everything is saved.').waitFor()
  await phone.getByRole('button', { name: 'Pass this phone on' }).click()
  await phone.getByRole('heading', { name: 'Pass this phone on?' }).waitFor()
  await phone.clock.fastForward(60_000)
  await phone.getByRole('heading', { name: 'Thank you' }).waitFor()

  await phone.route('**/taste/pass', () => undefined) // never answered
  await phone.getByRole('button', { name: 'Pass this phone on' }).click()
  await phone.getByRole('button', { name: 'Pass it on' }).click()
  await phone.getByText('Passing on…').waitFor()
  await phone.clock.fastForward(10_000)
  await phone.getByText('The café’s computer cannot be reached just now.').waitFor()
  await phone.unroute('**/taste/pass')
  await phone.getByRole('button', { name: 'Pass it on' }).click()
  await phone.waitForURL(/\/join\//)
  expect(house.complaints.filter((words) => !/taste\/pass/.test(words))).toEqual([])
})
