import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { findSidewaysScroll } from '../support/axe'
import { openHouse, setUp, shoot, signIn, type House } from '../support/house'

let house: House
let phone: Page
let db: Db

beforeAll(async () => {
  house = await openHouse()
  const desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  await signIn(desk)
  phone = await house.phone()
  await signIn(phone)
  db = openDatabase(house.app.databaseUrl)
})
afterAll(async () => {
  await db?.$disconnect()
  await house.close()
})

const text = (page: Page) => page.locator('main').innerText()

/** Opens what stands in for the milk of a trial, from its menu of changes. */
async function instead(trialId: string): Promise<void> {
  await phone.goto(`/trials/${trialId}`)
  await phone.getByText('Change', { exact: true }).click()
  await phone.getByRole('link', { name: 'Instead of Evaporated milk, whole' }).click()
  await phone.getByRole('heading', { level: 1, name: /^Instead of Evaporated milk, whole/ }).waitFor()
}

test('on a phone somebody finds what stands in for the milk, reads its labels first, and makes a trial that nobody tasted', async () => {
  const { id, number } = await db.trial.findFirstOrThrow({ where: { name: '30 g syrup' } })
  await instead(id)
  expect(await text(phone)).toContain('Nearest by fat, sugars, solids and protein; taste it.')
  expect(await text(phone)).not.toMatch(/equal|equivalent|identical|the same/i)
  const nearest = phone.getByRole('region', { name: /^1\. / }).first()
  const parts = (await nearest.getByRole('heading').innerText()).replace(/^1\. /, '').split(' + ')
  const said = await nearest.innerText()
  // what stands above the figures stands above them
  expect(said).toMatch(/Label not read[\s\S]*Per 100 g/)
  expect(await findSidewaysScroll(phone)).toBe(0)
  await shoot(phone, 'instead-of-milk-phone')

  const tick = nearest.getByLabel('I have read which allergens are new with it.')
  if (/New against/.test(said)) await tick.check()
  else expect(await tick.count()).toBe(0)
  await nearest.getByRole('button', { name: 'Make it a trial' }).click()
  await phone.waitForURL((url) => /\/trials\/[^/]+$/.test(url.pathname) && !url.pathname.endsWith(id))
  const made = await text(phone)
  expect(made).toContain('A draft: it can still be changed.')
  expect(made).toMatch(/stands? in for Evaporated milk, whole, not tasted\./)
  expect(made).toContain(`What changed from trial ${number}`)
  const rows = await phone.getByRole('region', { name: 'Lines of the build' }).getByRole('row').allInnerTexts()
  for (const part of parts) {
    const [, grams = '', name = ''] = /^([\d.]+) g (.*)$/.exec(part) ?? []
    expect(rows.filter((row) => row.includes(name) && row.includes(`${Number(grams).toFixed(1)} g`))).toHaveLength(1)
  }
  await shoot(phone, 'instead-of-milk-made-phone')
  await phone.goto(`${new URL(phone.url()).pathname}/card`)
  expect(await text(phone)).toMatch(/No card yet: Nobody has read for allergens the label of/)
  expect(await phone.locator('article').count()).toBe(0)
})

test('what changed since it was shown is said beside its button, and nothing is made', async () => {
  const { id } = await db.trial.findFirstOrThrow({ where: { name: '30 g syrup' } })
  await instead(id)
  const before = await db.trial.count()
  await db.ingredient.updateMany({
    where: { name: { not: 'Evaporated milk, whole' } },
    data: { archivedAt: new Date() },
  })
  await phone.getByRole('button', { name: 'Make it a trial' }).first().click()
  await phone.getByText('The sheet or the store has changed since this was worked out.').waitFor()
  expect(await db.trial.count()).toBe(before)
  await phone.reload()
  await phone.getByText('Nothing on the shelf is of the same kind').waitFor()
  expect(house.complaints).toEqual([])
})
