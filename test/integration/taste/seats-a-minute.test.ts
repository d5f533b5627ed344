/** Who takes seat after seat from one network address by the panel's code is made to wait; nobody else is. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { SEATS_A_MINUTE } from '@/lib/auth/seat-brake'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'
import { phoneBrowser, WILLING } from '../../support/phone-browser'

const here = vi.hoisted(() => ({ world: undefined as unknown }))
vi.mock('@/lib/tasks/world', async (actual) => ({ ...(await actual<object>()), theWorld: () => here.world }))
vi.mock('@/lib/auth/session', () => ({ currentUserId: async () => null }))

const SECOND = 1000

let panel: OpenPanel
/** the brake remembers across tests of one process: each has a network of its own */
let network = 0
beforeEach(async () => {
  panel = await openPanelForTest({ seats: 40 })
  here.world = panel.world
  network += 1
})
afterEach(() => panel.close())

const door = () => ({ kind: 'join', token: panel.joinToken }) as const
const card = (number: number) => ({ kind: 'card', token: panel.seats[number - 1]?.cardToken ?? '' }) as const
const address = (host = 1) => `10.${network}.0.${host}`
const phoneAt = (host = 1) => phoneBrowser([], address(host))

async function sitDown(phone = phoneAt(), name = 'Ana') {
  await phone.show(door())
  return phone.enter(door(), { ...WILLING, name })
}

/** One machine, a fresh browser and another name each time. */
async function stuff(seats: number): Promise<number[]> {
  const statuses: number[] = []
  for (let turn = 0; turn < seats; turn++) statuses.push((await sitDown(phoneAt(), `Somebody ${turn}`)).status)
  return statuses
}
const taken = () => panel.db.seat.count({ where: { takenAt: { not: null } } })

test('one machine that takes all seats at once gets so many, then words, the seconds, and 429 with Retry-After', async () => {
  expect(await stuff(SEATS_A_MINUTE)).toEqual(Array(SEATS_A_MINUTE).fill(303))
  panel.pass(20 * SECOND)
  const phone = phoneAt()
  const refused = await sitDown(phone, 'Nell')
  expect(refused.status).toBe(429)
  expect(refused.head).toMatch(/^retry-after: 40$/m)
  expect(refused.body).toContain('Wait 40 seconds')
  expect(refused.body).toContain('value="Nell"')
  expect(phone.cookies.has('taster-seat')).toBe(false)
  expect(await taken()).toBe(SEATS_A_MINUTE)
  expect(await panel.db.taster.count()).toBe(SEATS_A_MINUTE)
  // Others are not made to wait, and neither is this one when the minute is over.
  expect((await sitDown(phoneAt(2))).status).toBe(303)
  panel.pass(40 * SECOND)
  expect((await phone.enter(door(), { ...WILLING, name: 'Nell' })).status).toBe(303)
})

test('thirty who come at once from one address are not given more', async () => {
  const statuses = await Promise.all(Array.from({ length: 30 }, () => sitDown(phoneAt())))
  expect(statuses.filter(({ status }) => status === 303)).toHaveLength(SEATS_A_MINUTE)
  expect(await taken()).toBe(SEATS_A_MINUTE)
})

test('a phone passed on after a taster’s turn never waits, however busy its network is, and does not count', async () => {
  const phone = phoneAt()
  expect((await sitDown(phone, 'First')).status).toBe(303)
  for (const name of ['Second', 'Third']) {
    panel.pass(61 * SECOND)
    await stuff(SEATS_A_MINUTE)
    expect((await sitDown(phoneAt(), 'Stranger')).status).toBe(429)
    expect((await phone.passOn()).status).toBe(200)
    expect((await phone.enter(door(), { ...WILLING, name })).status).toBe(303)
  }
  panel.pass(61 * SECOND)
  await phone.passOn()
  expect((await phone.enter(door(), { ...WILLING, name: 'Fourth' })).status).toBe(303)
  expect(await stuff(SEATS_A_MINUTE)).toEqual(Array(SEATS_A_MINUTE).fill(303))
})

test('passing on at once, again and again, is no way round', async () => {
  const phone = phoneAt()
  const statuses: number[] = []
  for (let turn = 0; turn < SEATS_A_MINUTE + 2; turn++) {
    statuses.push((await sitDown(phone, `Somebody ${turn}`)).status)
    if (statuses.at(-1) === 303) await phone.passOn()
  }
  expect(statuses.filter((status) => status === 303)).toHaveLength(SEATS_A_MINUTE)
})

test('seat cards are each a secret of their own: they neither wait nor count', async () => {
  await stuff(SEATS_A_MINUTE)
  for (const number of [38, 39, 40]) {
    const phone = phoneAt()
    await phone.show(card(number))
    expect((await phone.enter(card(number), WILLING)).status).toBe(303)
  }
  panel.pass(60 * SECOND)
  for (const number of [35, 36, 37]) await phoneAt().enter(card(number), WILLING)
  expect((await sitDown()).status).toBe(303)
})

test('pressing twice counts once, and what took no seat does not count', async () => {
  const phone = phoneAt()
  await phone.show(door())
  for (let press = 0; press < SEATS_A_MINUTE + 3; press++) expect((await phone.enter(door(), WILLING)).status).toBe(303)
  const other = phoneAt()
  await other.show(door())
  for (let press = 0; press < SEATS_A_MINUTE + 3; press++) await other.enter(door(), { act: 'take', name: '' })
  expect(await stuff(SEATS_A_MINUTE - 1)).toEqual(Array(SEATS_A_MINUTE - 1).fill(303))
  expect((await sitDown()).status).toBe(429)
})
