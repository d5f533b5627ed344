/** “Two cups, which one?” from the plan to closing: sets are dealt evenly, and an answer is kept as a score is. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkBooks } from '@/lib/db/books/check-books'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { callOffPanel } from '@/lib/tasks/plan/call-off-panel'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { setSeatAside } from '@/lib/tasks/pour/set-seat-aside'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { passPhoneOn } from '@/lib/tasks/taste/pass-phone-on'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { choicePhone, openChoicePanel } from '../../support/choice-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  panelId = await openChoicePanel(cafe)
})
afterEach(() => cafe.close())

const phone = (name?: string) => choicePhone(cafe.world, panelId, name)
const answers = () => cafe.db.setAnswer.findMany({ select: { answer: true, revision: true, key: true, source: true } })
const setRow = (seat: number) => cafe.db.servingSet.findFirstOrThrow({ where: { panelId, seat: { number: seat } } })
const servingRows = (seat: number) => cafe.db.serving.findMany({ where: { panelId, seat: { number: seat } } })
const acts = async () => (await cafe.db.auditRow.findMany({ select: { act: true } })).map(({ act }) => act)
/** The sheets of the test café are numbered from 0; nothing else is out. */
const balanced = async () =>
  expect(
    (await checkBooks(cafe.db)).filter(({ code }) => !['input-positions', 'line-positions'].includes(code)),
  ).toEqual([])

/** How often each of the two stands first. */
async function firsts(of: string) {
  const first = await cafe.db.serving.findMany({ where: { panelId: of, position: 1 }, select: { cupId: true } })
  const counts = new Map<string, number>()
  for (const { cupId } of first) counts.set(cupId, (counts.get(cupId) ?? 0) + 1)
  return [...counts.values()]
}

test('every seat has one set of both cups, and both orders come equally often, with added seats too', async () => {
  for (const [seats, added] of [
    [8, 0],
    [9, 3],
    [24, 5],
    [25, 6],
    [60, 7],
  ] as const) {
    const held = await openChoicePanel(cafe, { seatCount: seats })
    if (added > 0) expect(await addSeats(cafe.world, cafe.owner, held, added)).toMatchObject({ ok: true })
    const sets = await cafe.db.servingSet.findMany({ where: { panelId: held }, select: { servings: true } })
    expect(sets).toHaveLength(seats + added)
    for (const { servings } of sets) {
      expect(new Set(servings.map(({ cupId }) => cupId)).size).toBe(2)
      expect(servings.map(({ position }) => position).toSorted()).toEqual([1, 2])
    }
    const [one = 0, other = 0] = await firsts(held)
    expect(one + other).toBe(seats + added)
    expect(Math.abs(one - other), `${seats} and ${added} seats`).toBe((seats + added) % 2)
  }
  await balanced()
})

test('a plan, and a copy of it, keep what is asked', async () => {
  const plan = (await readPanel(cafe.world, cafe.owner, panelId))?.plan
  expect(plan).toMatchObject({ asks: { kind: 'choice', none: true, share: 65 }, aspects: [] })
  await closePanel(cafe.world, cafe.owner, panelId)
  const again = await copyPanel(cafe.world, cafe.owner, panelId)
  const copied = again.ok ? await readPanel(cafe.world, cafe.owner, again.value) : null
  expect(copied?.plan).toMatchObject({ asks: { kind: 'choice', none: true, share: 65 }, aspects: [] })
  await balanced()
})

test('a phone knows two codes and one set, and nothing of a scale', async () => {
  const ana = await phone()
  const state = await ana.state()
  expect(state).toMatchObject({
    ok: true,
    value: {
      asks: [{ kind: 'choose', none: true }],
      cups: [
        { position: 1, answers: [] },
        { position: 2, answers: [] },
      ],
      sets: [{ number: 1, positions: [1, 2], locked: false, skipped: false, answers: [null] }],
    },
  })
})

test('an answer is stored once with its line in the diary, which does not say what was answered', async () => {
  const ana = await phone()
  const sent = ana.message({ key: 'the-same-key-again', revision: 1 })
  for (const _ of [1, 2]) expect(await ana.answer([2], sent)).toEqual({ ok: true, value: { answer: [2], revision: 1 } })
  expect(await answers()).toEqual([{ answer: '[2]', revision: 1, key: 'the-same-key-again', source: 'phone' }])
  const line = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'set-answered' } })
  expect(line).toMatchObject({ actorKind: 'taster', subjectKind: 'set', detail: '{"attribute":0,"revision":1}' })
  await balanced()
})

test('a newer answer replaces, to no preference and back; an older one never does and is told what stands', async () => {
  const ana = await phone()
  await ana.answer([1], { revision: 1 })
  await ana.answer([], { revision: 3 })
  expect(await ana.answer([2], { revision: 2 })).toEqual({ ok: true, value: { answer: [], revision: 3 } })
  await ana.answer([2], { revision: 4 })
  expect(await answers()).toMatchObject([{ answer: '[2]', revision: 4 }])
  expect((await acts()).filter((act) => act.startsWith('set-answer'))).toEqual(['set-answered', 'set-answer-changed'])
})

test('what is no answer is refused: a place elsewhere, both, none where that was not planned, another question', async () => {
  const ana = await phone()
  expect(await ana.answer([3])).toMatchObject({ reason: 'no-such-answer' })
  expect(await ana.answer([1, 2])).toMatchObject({ reason: 'no-such-answer' })
  expect(await ana.answer([1], { attribute: 1 })).toMatchObject({ reason: 'no-such-attribute' })
  expect(await ana.answer([1], { set: 2 })).toMatchObject({ reason: 'not-your-set' })
  expect(await ana.answer([1], { sitting: 'another-turn-of-this-seat' })).toMatchObject({ reason: 'another-sitting' })
  panelId = await openChoicePanel(cafe, { asks: { kind: 'choice', none: false, share: 65 } })
  expect(await (await phone()).answer([])).toMatchObject({ reason: 'no-such-answer' })
  expect(await answers()).toEqual([])
})

test('once gone on, a set and both its cups are done, and nothing of them changes or is told again', async () => {
  const ana = await phone()
  expect(await ana.lock()).toMatchObject({ reason: 'answers-missing' })
  await ana.answer([1])
  for (const _ of [1, 2]) expect(await ana.lock()).toMatchObject({ ok: true })
  expect(await ana.answer([2])).toMatchObject({ reason: 'locked' })
  expect(await ana.skip()).toMatchObject({ reason: 'locked' })
  for (const serving of await servingRows(ana.seat)) expect(serving.lockedAt).not.toBeNull()
  const state = await ana.state()
  expect(state.ok && state.value.sets).toMatchObject([{ locked: true, answers: [null] }])
  expect((await readProgress(cafe.world, cafe.owner, panelId))?.seats[0]).toMatchObject({
    state: 'finished',
    scored: 2,
  })
  await balanced()
})

test('both cups are left out together, and no cup of a set alone', async () => {
  const ana = await phone()
  const at = { sitting: ana.sitting, code: ana.cups[0]?.code ?? '' }
  const score = { ...at, attribute: 0, value: 7, revision: 1, key: 'a-key-of-a-score' }
  expect(await storeScore(cafe.world, ana.browser, score)).toMatchObject({ reason: 'no-such-attribute' })
  expect(await lockServing(cafe.world, ana.browser, at)).toMatchObject({ reason: 'in-a-set' })
  expect(await skipServing(cafe.world, ana.browser, { ...at, reason: 'rather-not' })).toMatchObject({
    reason: 'in-a-set',
  })
  for (const _ of [1, 2]) expect(await ana.skip()).toMatchObject({ ok: true })
  expect(await setRow(ana.seat)).toMatchObject({ skipReason: 'rather-not', skipSource: 'phone' })
  for (const serving of await servingRows(ana.seat)) expect(serving).toMatchObject({ skipReason: 'rather-not' })
  const seat = (await readProgress(cafe.world, cafe.owner, panelId))?.seats[0]
  expect(seat).toMatchObject({ state: 'finished', skipped: 2, scored: 0 })
  await balanced()
})

test('after closing an answer is kept apart: the first and the last, once each', async () => {
  const ana = await phone()
  await ana.answer([1])
  await closePanel(cafe.world, cafe.owner, panelId)
  for (const place of [2, 1, 2]) expect(await ana.answer([place])).toMatchObject({ reason: 'kept-late' })
  expect(await ana.lock()).toMatchObject({ reason: 'panel-closed' })
  expect(await ana.skip()).toMatchObject({ reason: 'panel-closed' })
  expect(await answers()).toMatchObject([{ answer: '[1]' }])
  const late = await cafe.db.uncountedAnswer.findMany({ orderBy: { revision: 'asc' } })
  expect(late).toMatchObject([
    { why: 'late', answer: '[2]' },
    { why: 'late', answer: '[2]' },
  ])
  expect((await acts()).filter((act) => act === 'set-answer-kept-late')).toHaveLength(1)
  await balanced()
})

test('a seat that was set aside takes nothing more, and what it had sent is acknowledged', async () => {
  const ana = await phone()
  const sent = ana.message({ key: 'sent-before-it-was', revision: 1 })
  await ana.answer([1], sent)
  await setSeatAside(cafe.world, cafe.owner, panelId, ana.seat, 'Had a cold')
  expect(await ana.answer([1], sent)).toMatchObject({ ok: true })
  expect(await ana.answer([2])).toMatchObject({ reason: 'set-aside' })
  expect(await ana.skip()).toMatchObject({ reason: 'set-aside' })
})

test('a phone that is passed on leaves an answered set done, and one not begun as it was', async () => {
  const ana = await phone()
  await ana.answer([1])
  await passPhoneOn(cafe.world, ana.browser)
  expect((await setRow(ana.seat)).lockedAt).not.toBeNull()
  const ben = await phone('Ben')
  await passPhoneOn(cafe.world, ben.browser)
  expect((await setRow(ben.seat)).lockedAt).toBeNull()
  await balanced()
})

test('a panel in which somebody has answered is called off no more', async () => {
  await (await phone()).answer([1])
  expect(await callOffPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ reason: 'tasted' })
})
