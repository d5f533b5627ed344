/**
 * What a taster meets of privacy: told at the door who reads the name and how long, shown what is kept, and rid of it when they
 * ask, on the phone, by the card, and through the house.
 */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openHouse, setUp, shoot, signIn, takeSeat, type House } from '../support/house'

let house: House
let owner: Page
let panel: string
let join: string

beforeAll(async () => {
  house = await openHouse()
  owner = await house.desk()
  await setUp(owner, house, 'With the demo café')
  await signIn(owner)
  await owner.goto('/panels')
  panel = (await owner.getByRole('link', { name: 'Oat drink?' }).first().getAttribute('href')) ?? ''
  await owner.goto(panel)
  join = /\/join\/[\w-]{43}/.exec((await owner.locator('main').innerText()).replace(/\s/g, ''))?.[0] ?? ''
})
afterAll(() => house.close())

test('the door says who reads a name and how long; the phone shows all that is kept, and takes the name out', async () => {
  const phone = await house.phone()
  await phone.goto(join)
  await phone.getByText('Your name is forgotten after 90 days.').waitFor()
  await phone.getByText('read by the café’s people who run this panel').waitFor()
  await takeSeat(phone, join, 'Zwenna')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('button', { name: 'like slightly', exact: true }).click()
  await phone.getByText('Saved', { exact: true }).waitFor()
  await phone.goto('/taste/kept')
  expect(await phone.locator('main').innerText()).toMatch(/Zwenna[^]*Cup \d{3}[^]*Overall liking 6/)

  await shoot(phone, 'kept-of-me')
  const seat = /seat (\d+)/.exec(await phone.locator('main').innerText())?.[1] ?? ''
  await owner.goto(`${panel}/tasters/${seat}`)
  await owner.getByText('Zwenna sat here.').waitFor()
  await owner.getByText('nobody reads a score before').waitFor()

  await phone.getByRole('button', { name: 'Take it out now' }).click()
  await phone.getByText('Your name is taken out.').waitFor()
  await owner.reload()
  await owner.getByText('The name is taken out.').waitFor()
  expect(await owner.content()).not.toContain('Zwenna')
  // The seat goes on: the score stays, and the next cup can be tasted.
  await phone.goto('/taste')
  await phone.getByRole('button', { name: 'like slightly', exact: true }).waitFor()
})

test('whoever runs the panel takes a name out for a taster who asks, on a closed panel with what they wrote', async () => {
  await owner.goto('/panels')
  const decided = await owner.getByRole('link', { name: 'How sweet?' }).first().getAttribute('href')
  await owner.goto(`${decided}`)
  await owner.getByRole('link', { name: 'Tasters’ names' }).click()
  await owner.getByRole('link', { name: /^Seat 1: / }).click()
  await owner
    .getByText(/Cup \d{3}: Overall liking \d/)
    .first()
    .waitFor()
  await shoot(owner, 'kept-of-taster')
  await owner.getByLabel('Comments too').check()
  await owner.getByRole('button', { name: 'Take the name out' }).click()
  await owner.getByText('The name is taken out.').waitFor()
  expect(await owner.getByText('written: “').count()).toBe(0)
})

test('the owner chooses how long names are kept, and what is past its time goes at once', async () => {
  await owner.goto('/team')
  await owner.getByLabel('Forget a taster’s name after').fill('30')
  const answered = owner.waitForResponse((answer) => answer.request().method() === 'POST')
  await owner.locator('form#name-days').getByRole('button', { name: 'Save' }).click()
  // its head comes when the act is done; what is streamed after it may be broken off by the next page
  await answered
  await owner.reload()
  await shoot(owner, 'team-names')
  await owner.goto('/account')
  await shoot(owner, 'account-sessions')
  await owner.goto('/panels')
  await owner.goto(`${await owner.getByRole('link', { name: 'How sweet?' }).first().getAttribute('href')}/tasters`)
  // 24 sat there 45 days ago
  expect(await owner.getByText('name taken out').count()).toBe(24)
  await owner.goto('/diary')
  await owner.getByText('the machine: names forgotten').first().waitFor()
  expect(house.complaints).toEqual([])
})
