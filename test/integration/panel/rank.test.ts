/** “Rank these” from the plan to closing: sets are dealt evenly, and an order is kept whole or not at all. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkBooks } from '@/lib/db/books/check-books'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { openRankPanel, rankPhone } from '../../support/rank-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  panelId = await openRankPanel(cafe)
})
afterEach(() => cafe.close())

const phone = (name?: string) => rankPhone(cafe.world, panelId, name)
const answers = () => cafe.db.setAnswer.findMany({ select: { answer: true, revision: true, source: true } })
/** The sheets of the test café are numbered from 0; nothing else is out. */
const balanced = async () =>
  expect(
    (await checkBooks(cafe.db)).filter(({ code }) => !['input-positions', 'line-positions'].includes(code)),
  ).toEqual([])

/** So many trials that can be poured, each of the one ingredient of the third. */
async function trials(many: number): Promise<string[]> {
  const ids = cafe.trialIds.slice(0, 3)
  const line = { cafeId: cafe.owner.cafeId, position: 0, role: 'other', unit: 'g' }
  const { ingredientId } = await cafe.db.trialLine.findFirstOrThrow({ where: { trialId: ids[2] ?? '' } })
  for (let number = 5; ids.length < many; number += 1) {
    const id = cafe.world.id()
    await cafe.db.trial.create({
      data: {
        ...{ id, number, cafeId: cafe.owner.cafeId, recipeId: cafe.recipeId, name: `Velvetine ${number}` },
        ...{ method: 'immersion', createdAt: cafe.world.now() },
        lines: {
          create: [{ ...line, id: cafe.world.id(), ingredientId, targetMg: number * 1000, typed: String(number) }],
        },
      },
    })
    ids.push(id)
  }
  return ids
}

/** How often each cup stands at each place, and how often each follows each other: least and most. */
async function spread(of: string) {
  const seats = await cafe.db.seat.findMany({
    where: { panelId: of },
    select: { servings: { select: { cupId: true, position: true }, orderBy: { position: 'asc' } } },
  })
  const counts = { place: new Map<string, number>(), after: new Map<string, number>() }
  for (const { servings } of seats) {
    for (const [at, { cupId }] of servings.entries()) {
      counts.place.set(`${cupId} ${at}`, (counts.place.get(`${cupId} ${at}`) ?? 0) + 1)
      const before = servings[at - 1]
      if (before) counts.after.set(`${before.cupId} ${cupId}`, (counts.after.get(`${before.cupId} ${cupId}`) ?? 0) + 1)
    }
  }
  const k = seats[0]?.servings.length ?? 0
  const range = (map: ReadonlyMap<string, number>, cells: number) =>
    [map.size < cells ? 0 : Math.min(...map.values()), Math.max(...map.values())] as const
  return { place: range(counts.place, k * k), after: range(counts.after, k * (k - 1)) }
}

test.each([
  [3, 8, 0],
  [3, 60, 7],
  [4, 24, 5],
  [5, 30, 3],
  [6, 60, 6],
])(
  '%i cups, %i seats and %i added: one set of all cups each, every place and every follower alike',
  async (cups, seats, added) => {
    const held = await openRankPanel(cafe, { cups: await trials(cups), seatCount: seats })
    if (added > 0) expect(await addSeats(cafe.world, cafe.owner, held, added)).toMatchObject({ ok: true })
    const sets = await cafe.db.servingSet.findMany({ where: { panelId: held }, select: { servings: true } })
    expect(sets).toHaveLength(seats + added)
    for (const { servings } of sets) {
      expect(new Set(servings.map(({ cupId }) => cupId)).size).toBe(cups)
      expect(new Set(servings.map(({ code }) => code)).size).toBe(cups)
    }
    const { place, after } = await spread(held)
    // whole squares give every cell alike; what is left of one adds at most one to places, and two to followers of odd cups
    expect(place[1] - place[0], `places ${place.join()}`).toBeLessThanOrEqual(added > 0 ? 2 : 1)
    expect(after[1] - after[0], `followers ${after.join()}`).toBeLessThanOrEqual(3)
    await balanced()
  },
)

test('a plan, and a copy of it, keep what is asked', async () => {
  const kept = { asks: { kind: 'rank', share: 75 }, aim: 'best', primaryKind: 'all-pairs', aspects: [] }
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.plan).toMatchObject(kept)
  await closePanel(cafe.world, cafe.owner, panelId)
  const again = await copyPanel(cafe.world, cafe.owner, panelId)
  const copied = again.ok ? await readPanel(cafe.world, cafe.owner, again.value) : null
  expect(copied?.plan).toMatchObject(kept)
  await balanced()
})

test('the door says that they are put in order; a phone knows three codes and one set, and nothing of a scale', async () => {
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  expect(await readJoin(cafe.world, { kind: 'join', token: joinToken }, null)).toMatchObject({
    value: { kind: 'rank', cups: 3 },
  })
  const state = await (await phone()).state()
  expect(state).toMatchObject({
    ok: true,
    value: {
      asks: [{ kind: 'rank' }],
      attributes: ['Order of liking'],
      sets: [{ number: 1, positions: [1, 2, 3], locked: false, skipped: false, answers: [null] }],
    },
  })
})

test('an order is stored whole; a part of one, a cup twice or a fourth place never is', async () => {
  const ana = await phone()
  for (const wrong of [[], [1], [2, 1], [1, 2, 2], [1, 2, 4], [1, 2, 3, 3], [3, 2, 1, 3]])
    expect(await ana.answer(wrong), wrong.join()).toMatchObject({ reason: 'no-such-answer' })
  expect(await answers()).toEqual([])
  expect(await ana.lock()).toMatchObject({ reason: 'answers-missing' })
  expect(await ana.answer([3, 1, 2], { revision: 20 })).toMatchObject({ ok: true })
  expect(await ana.answer([1, 2, 3], { revision: 19 })).toEqual({
    ok: true,
    value: { answer: [3, 1, 2], revision: 20 },
  })
  expect(await ana.answer([2, 1, 3], { revision: 21 })).toMatchObject({ ok: true })
  expect(await answers()).toEqual([{ answer: '[2,1,3]', revision: 21, source: 'phone' }])
  await balanced()
})

test('once gone on, all cups are done, and nothing of them changes or is told again', async () => {
  const ana = await phone()
  expect(await ana.order(cafe.trialIds.slice(0, 3))).toMatchObject({ ok: true })
  expect(await ana.answer([1, 2, 3])).toMatchObject({ reason: 'locked' })
  const state = await ana.state()
  expect(state.ok && state.value.sets).toMatchObject([{ locked: true, answers: [null] }])
  expect((await readProgress(cafe.world, cafe.owner, panelId))?.seats[0]).toMatchObject({
    state: 'finished',
    scored: 3,
  })
  await balanced()
})

test('after closing an order is kept apart', async () => {
  const ana = await phone()
  await ana.answer([1, 2, 3])
  await closePanel(cafe.world, cafe.owner, panelId)
  expect(await ana.answer([3, 2, 1])).toMatchObject({ reason: 'kept-late' })
  expect(await answers()).toMatchObject([{ answer: '[1,2,3]' }])
  expect(await cafe.db.uncountedAnswer.findMany()).toMatchObject([{ why: 'late', answer: '[3,2,1]' }])
  await balanced()
})
