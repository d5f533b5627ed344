/** A printed ballot says what the phone's door says and asks what a phone asks; nothing on it tells which cup is which. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { cautionsPart } from '@/app/join/cautions-part'
import { joinForm } from '@/app/join/join-form'
import { html } from '@/app/taste/html'
import { Ballot } from '@/app/(house)/panels/[panelId]/ballots/ballot'
import { PaperForm } from '@/lib/forms/paper-form'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readBallots } from '@/lib/tasks/pour/read-ballots'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

let panel: OpenPanel
beforeEach(async () => {
  panel = await openPanelForTest({ seats: 3 })
})
afterEach(() => panel.close())

const reader = () => ({
  userId: panel.userId,
  cafeId: panel.cafeId,
  cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' },
})
const read = (free: boolean) => readBallots(panel.world, reader(), panel.panelId, free)
async function printed(): Promise<readonly string[]> {
  const ballots = await read(true)
  return (ballots?.seats ?? []).map((seat) =>
    renderToStaticMarkup(
      createElement(Ballot, { head: ballots ?? never(), seat, address: `http://192.0.2.7/seat/${seat.token}` }),
    ),
  )
}
const never = () => {
  throw new Error('no ballots')
}
const told = (page: string) =>
  page
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#(?:x27|39);/g, '’')
    .replace(/\s+/g, ' ')

test('every byte of every ballot is searched: no name, no ingredient, no id, no seed', async () => {
  const sheets = await printed()
  expect(sheets).toHaveLength(3)
  const all = sheets.join('\n').toLowerCase()
  expect(panel.secrets.filter((secret) => all.includes(secret.toLowerCase()))).toEqual([])
})

test('its codes are those of the seat in the order of tasting, underlined, each with nine steps a question', async () => {
  const [first] = panel.seats
  const rows = await panel.db.serving.findMany({ where: { seatId: first?.id ?? '' }, orderBy: { position: 'asc' } })
  const [sheet = ''] = await printed()
  expect([...sheet.matchAll(/underline[^>]*>(\d{3})</g)].map(([, code]) => code)).toEqual(rows.map(({ code }) => code))
  // three cups, two questions, nine steps
  expect(sheet.match(/<td[^>]*>[1-9]<\/td>/g)).toHaveLength(3 * 2 * 9)
})

test('the head of each cup says seat and code, and is one that a printer repeats on the next page', async () => {
  const sheets = await printed()
  const heads = sheets.map((sheet) =>
    [...sheet.matchAll(/<thead[\s\S]*?<\/thead>/g)].map(([head]) => told(head).trim()),
  )
  const seats = await panel.db.seat.findMany({
    orderBy: { number: 'asc' },
    select: { number: true, servings: { orderBy: { position: 'asc' }, select: { code: true } } },
  })
  expect(heads).toEqual(
    seats.map(({ number, servings }) => servings.map(({ code }, at) => `Seat ${number}, cup ${at + 1}: ${code}`)),
  )
})

test('what it says before tasting, and what is ticked, are the words of the phone’s door', async () => {
  const door = await readJoin(panel.world, { kind: 'join', token: panel.joinToken }, null)
  if (!door.ok) throw new Error(door.reason)
  const sheet = told((await printed())[0] ?? '')
  const items = [...cautionsPart(door.value.cautions, html``).text.matchAll(/<li>(.*?)<\/li>/gs)]
  expect(items.length).toBeGreaterThan(2)
  for (const [, item = ''] of items) expect(sheet).toContain(told(item).trim())
  const ticks = [...joinForm(door.value, null).text.matchAll(/type="checkbox"[\s\S]*?<span>(.*?)<\/span>/g)]
  expect(ticks).toHaveLength(3)
  for (const [, words = ''] of ticks) expect(sheet).toContain(told(words).trim())
  expect(sheet).toContain('you may stop, or spit out, at any time')
})

test('seats on paper have one, free seats where asked; who answers on a phone, left or is set aside has none', async () => {
  expect((await read(false))?.seats).toEqual([])
  expect(await putSeatOnPaper(panel.world, reader(), panel.panelId, 2)).toMatchObject({ ok: true })
  expect((await read(false))?.seats.map(({ number }) => number)).toEqual([2])
  const [one, , three] = panel.seats
  await panel.db.seat.update({ where: { id: one?.id ?? '' }, data: { takenAt: panel.world.now() } })
  expect((await read(true))?.seats.map(({ number }) => number)).toEqual([2, 3])
  await panel.db.seat.update({ where: { id: three?.id ?? '' }, data: { setAsideAt: panel.world.now() } })
  expect((await read(true))?.seats.map(({ number }) => number)).toEqual([2])
  expect(await readBallots(panel.world, { ...reader(), cafeId: 'another' }, panel.panelId, true)).toBeNull()
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })
  expect(await read(true)).toBeNull()
})

test('a sheet is typed in only with all three ticks', () => {
  const whole = { seat: '2', name: 'Wren', unaffected: 'yes', consent: 'yes', unseen: 'yes', cups: [] }
  expect(PaperForm.safeParse(whole).success).toBe(true)
  for (const tick of ['unaffected', 'consent', 'unseen'])
    expect(PaperForm.safeParse({ ...whole, [tick]: undefined }).error?.issues).toMatchObject([{ path: [tick] }])
})
