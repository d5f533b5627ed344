import { afterEach, beforeEach, expect, test } from 'vitest'
import { continueSeat } from '@/lib/tasks/taste/continue-seat'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { passPhoneOn } from '@/lib/tasks/taste/pass-phone-on'
import { reachTry } from '@/lib/tasks/taste/reach-try'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { openPanelForTest, layPanel, type OpenPanel } from '../../support/open-panel'

let panel: OpenPanel
beforeEach(async () => {
  panel = await openPanelForTest()
})
afterEach(() => panel.close())

const join = (name: string, browser: string, userId: string | null = null) =>
  takeSeat(panel.world, { kind: 'join', token: panel.joinToken }, { browser, userId, name })
const card = (number: number) => ({ kind: 'card', token: panel.seats[number - 1]?.cardToken ?? '' }) as const
const seatRow = (number: number) => panel.db.seat.findFirst({ where: { number, panelId: panel.panelId } })
const token = () => panel.world.token()

async function sittingOf(browser: string): Promise<string> {
  const state = await readSeatState(panel.world, browser)
  return state.ok ? state.value.sitting : state.reason
}

test('the panel’s code gives the next free seat, with name, consent and declaration kept', async () => {
  expect(await join('Ana', token())).toEqual({ ok: true, value: { seat: 1 } })
  expect(await join('Ben', token())).toEqual({ ok: true, value: { seat: 2 } })
  const taster = await panel.db.taster.findFirst({ where: { name: 'Ana' } })
  expect(taster?.consentAt).toEqual(panel.world.now())
  expect(await panel.db.auditRow.count({ where: { act: 'seat-taken' } })).toBe(2)
})

test('two who come at once for one seat do not share it', async () => {
  await panel.db.seat.updateMany({ where: { number: { gt: 1 } }, data: { onPaper: true } })
  const both = await Promise.all([join('Ana', token()), join('Ben', token())])
  expect(both.map((one) => (one.ok ? one.value.seat : one.reason)).sort()).toEqual([1, 'full'])
  expect(await panel.db.taster.count()).toBe(1)
})

test('ten who come at once for three seats get three different ones', async () => {
  const all = await Promise.all(Array.from({ length: 10 }, (_, i) => join(`Taster ${i}`, token())))
  expect(all.flatMap((one) => (one.ok ? [one.value.seat] : [])).sort()).toEqual([1, 2, 3])
  expect(await panel.db.taster.count()).toBe(3)
})

test('a double tap on one browser takes one seat', async () => {
  const browser = token()
  const both = await Promise.all([join('Ana', browser), join('Ana', browser)])
  expect(both).toEqual([
    { ok: true, value: { seat: 1 } },
    { ok: true, value: { seat: 1 } },
  ])
  expect(await panel.db.taster.count()).toBe(1)
})

test('a seat that was left, used or put on paper is never given', async () => {
  await panel.db.seat.updateMany({ where: { number: 1 }, data: { leftAt: panel.world.now() } })
  await panel.db.seat.updateMany({ where: { number: 2 }, data: { onPaper: true } })
  expect(await join('Ana', token())).toEqual({ ok: true, value: { seat: 3 } })
  expect(await join('Ben', token())).toMatchObject({ ok: false, reason: 'full' })
  const take = (number: number) => takeSeat(panel.world, card(number), { browser: token(), userId: null, name: 'Cy' })
  expect(await take(1)).toMatchObject({ ok: false, reason: 'seat-left' })
  expect(await take(2)).toMatchObject({ ok: false, reason: 'on-paper' })
  expect(await take(3)).toMatchObject({ ok: false, reason: 'begun-elsewhere' })
})

test('a card gives its own seat', async () => {
  expect(await takeSeat(panel.world, card(3), { browser: token(), userId: null, name: 'Cy' })).toEqual({
    ok: true,
    value: { seat: 3 },
  })
})

test('the same name in other letters is flagged as a likely repeat, and still gets its seat', async () => {
  await join('Zoë  K', token())
  expect(await join('zOË k', token())).toEqual({ ok: true, value: { seat: 2 } })
  expect((await seatRow(2))?.repeatOfSeatId).toBe(panel.seats[0]?.id)
  expect((await seatRow(1))?.repeatOfSeatId).toBeNull()
})

test('the same browser with another name is flagged after the phone was passed on', async () => {
  const browser = token()
  await join('Ana', browser)
  expect(await passPhoneOn(panel.world, browser)).toEqual({ ok: true, value: { joinToken: panel.joinToken, seat: 1 } })
  expect(await readSeatState(panel.world, browser)).toMatchObject({ ok: false, reason: 'phone-passed-on' })
  expect(await join('Ben', browser)).toEqual({ ok: true, value: { seat: 2 } })
  expect((await seatRow(2))?.repeatOfSeatId).toBe(panel.seats[0]?.id)
})

test('passing on locks what was sent, and answers of the turn before are refused', async () => {
  const browser = token()
  await join('Ana', browser)
  const old = await sittingOf(browser)
  const answer = { sitting: old, code: '211', attribute: 0, value: 6, revision: 1, key: 'key-number-one' }
  await storeScore(panel.world, browser, answer)
  await passPhoneOn(panel.world, browser)
  expect(await storeScore(panel.world, browser, answer)).toMatchObject({ reason: 'phone-passed-on' })
  await join('Ben', browser)
  expect(await storeScore(panel.world, browser, answer)).toMatchObject({ reason: 'another-sitting' })
  const servings = await panel.db.serving.findMany({ where: { seat: { number: 1 } }, orderBy: { position: 'asc' } })
  expect(servings.map(({ lockedAt }) => lockedAt !== null)).toEqual([true, false, false])
})

test('a card on a second phone goes on there, and the first is told', async () => {
  const first = token()
  const second = token()
  await takeSeat(panel.world, card(2), { browser: first, userId: null, name: 'Ana' })
  const sitting = await sittingOf(first)
  await storeScore(panel.world, first, {
    sitting,
    code: '221',
    attribute: 0,
    value: 8,
    revision: 1,
    key: 'key-number-one',
  })

  const view = await readJoin(panel.world, card(2), second)
  expect(view).toMatchObject({ ok: true, value: { stand: 'begun-elsewhere', seat: 2 } })
  expect(await continueSeat(panel.world, card(2).token, { browser: second, userId: null })).toMatchObject({ ok: true })
  expect(await readSeatState(panel.world, first)).toMatchObject({ ok: false, reason: 'seat-moved' })
  const moved = await readSeatState(panel.world, second)
  expect(moved.ok && moved.value.cups[0]?.answers[0]).toEqual({ value: 8, revision: 1 })
  expect(await panel.db.taster.count()).toBe(1)
  expect(await panel.db.auditRow.count({ where: { act: 'seat-moved' } })).toBe(1)
})

test('who watches is told that a seat went on on another phone, and the second phone hears nothing of cups that were done', async () => {
  const first = token()
  await takeSeat(panel.world, card(2), { browser: first, userId: null, name: 'Ana' })
  const sitting = await sittingOf(first)
  const answer = { sitting, code: '221', value: 8, revision: 1 }
  await storeScore(panel.world, first, { ...answer, attribute: 0, key: 'key-number-one' })
  await storeScore(panel.world, first, { ...answer, attribute: 1, key: 'key-number-two' })
  await lockServing(panel.world, first, { sitting, code: '221' })
  panel.pass(60_000)
  const second = token()
  await continueSeat(panel.world, card(2).token, { browser: second, userId: null })
  const state = await readSeatState(panel.world, second)
  expect(state.ok && state.value.cups[0]).toMatchObject({ code: '221', locked: true, answers: [null, null] })
  const reader = { userId: panel.userId, cafeId: panel.cafeId }
  const progress = await readProgress(panel.world, reader, panel.panelId)
  expect(progress?.seats.map(({ movedAt }) => movedAt)).toEqual([null, panel.world.now(), null])
})

test('a phone that holds a seat gets no second one', async () => {
  const browser = token()
  await join('Ana', browser)
  expect(await takeSeat(panel.world, card(2), { browser, userId: null, name: 'Ana' })).toMatchObject({
    ok: false,
    reason: 'holds-seat',
  })
  const other = await layPanel(panel.world)
  const there = { kind: 'join', token: other.joinToken } as const
  expect(await takeSeat(panel.world, there, { browser, userId: null, name: 'Ana' })).toMatchObject({
    ok: false,
    reason: 'holds-seat',
  })
})

test('when its panel has closed, the phone is free for another panel', async () => {
  const browser = token()
  await join('Ana', browser)
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })
  const other = await layPanel(panel.world)
  const there = { kind: 'join', token: other.joinToken } as const
  expect(await takeSeat(panel.world, there, { browser, userId: null, name: 'Ana' })).toEqual({
    ok: true,
    value: { seat: 1 },
  })
  const state = await readSeatState(panel.world, browser)
  expect(state.ok && state.value.open).toBe(true)
})

test('who has opened the serving list cannot taste; the filling list alone shuts nobody out', async () => {
  const open = (list: string) =>
    panel.db.listOpening.create({
      data: {
        id: panel.world.id(),
        cafeId: panel.cafeId,
        panelId: panel.panelId,
        userId: panel.userId,
        list,
        at: panel.world.now(),
      },
    })
  await open('filling')
  await open('filling')
  expect(await join('Pourer', token(), panel.userId)).toMatchObject({ ok: true })
  await open('serving')
  expect(await join('Pourer', token(), panel.userId)).toMatchObject({ ok: false, reason: 'opened-both-lists' })
  await takeSeat(panel.world, card(3), { browser: token(), userId: null, name: 'Cy' })
  const by = { browser: token(), userId: panel.userId }
  expect(await continueSeat(panel.world, card(3).token, by)).toMatchObject({ reason: 'opened-both-lists' })
  expect(await panel.db.taster.count()).toBe(2)
})

test.each([
  ['draft', 'not-open'],
  ['closed', 'closed'],
  ['decided', 'closed'],
])('a panel that is %s gives no seat', async (stage, reason) => {
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage } })
  expect(await join('Ana', token())).toMatchObject({ ok: false, reason })
  expect(await panel.db.taster.count()).toBe(0)
})

test('an unknown code opens no door', async () => {
  const nowhere = { kind: 'join', token: 'x'.repeat(43) } as const
  expect(await readJoin(panel.world, nowhere, null)).toMatchObject({ ok: false, reason: 'not-there' })
  expect(await takeSeat(panel.world, nowhere, { browser: token(), userId: null, name: 'Ana' })).toMatchObject({
    reason: 'not-there',
  })
})

test('allergens are one union over all cups, down to syrups inside syrups', async () => {
  const view = await readJoin(panel.world, { kind: 'join', token: panel.joinToken }, null)
  expect(view.ok && view.value.cautions).toMatchObject({
    list: 'European Union, 14 allergens',
    contains: ['Milk', 'Sesame'],
    mayContain: ['Tree nuts', 'Celery'],
    notStated: ['Lupin'],
  })
  const kinds = view.ok ? view.value.cautions.said.map(({ kind }) => kind) : []
  expect(new Set(kinds)).toEqual(new Set(['allergens', 'caffeine', 'sugar', 'alcohol', 'milk', 'rules']))
})

test('an ingredient whose label nobody has read leaves every allergen not stated', async () => {
  await panel.db.ingredient.updateMany({ where: { name: 'Zephyrine beans' }, data: { labelReadAt: null } })
  const view = await readJoin(panel.world, { kind: 'join', token: panel.joinToken }, null)
  expect(view.ok && view.value.cautions.notStated).toContain('Fish')
  expect(view.ok && view.value.cautions.notStated).toHaveLength(10)
})

test('a phone that came by the try-out address is noted once', async () => {
  const tried = token()
  await panel.db.phoneTry.create({
    data: { id: panel.world.id(), cafeId: panel.cafeId, panelId: panel.panelId, token: tried, createdAt: new Date() },
  })
  expect(await reachTry(panel.world, tried)).toMatchObject({ ok: true })
  const first = await panel.db.phoneTry.findUnique({ where: { token: tried } })
  expect(first?.reachedAt).toEqual(panel.world.now())
  panel.pass(1000)
  await reachTry(panel.world, tried)
  expect((await panel.db.phoneTry.findUnique({ where: { token: tried } }))?.reachedAt).toEqual(first?.reachedAt)
  expect(await reachTry(panel.world, token())).toMatchObject({ ok: false, reason: 'not-there' })
})
