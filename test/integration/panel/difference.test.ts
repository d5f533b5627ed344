/** “Can these tasters tell them apart?” from the plan to closing: how sets are dealt, poured and answered. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkBooks } from '@/lib/db/books/check-books'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { readListHead } from '@/lib/tasks/pour/read-pouring-list'
import { readMats } from '@/lib/tasks/pour/read-mats'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPanelCaffeine } from '@/lib/tasks/plan/read-panel-caffeine'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { differencePhone, openDifferencePanel } from '../../support/difference-panel'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

/** The sheets of the test café are numbered from 0; nothing else is out. */
const balanced = async () =>
  expect(
    (await checkBooks(cafe.db)).filter(({ code }) => !['input-positions', 'line-positions'].includes(code)),
  ).toEqual([])

/** Every set of a panel in letters of the database: the cup served first in the plan is A. */
async function setsOf(panelId: string): Promise<string[]> {
  const [a] = cafe.trialIds
  const sets = await cafe.db.servingSet.findMany({
    where: { panelId },
    orderBy: [{ seat: { number: 'asc' } }, { number: 'asc' }],
    select: { servings: { orderBy: { position: 'asc' }, select: { cup: { select: { trialId: true } } } } },
  })
  return sets.map(({ servings }) => servings.map(({ cup }) => (cup.trialId === a ? 'A' : 'B')).join(''))
}

/** As ISO 4120, ISO 10399 and ISO 5495 list them; a tetrad's six, and of three alternatives A once. */
const orders = {
  triangle: ['AAB', 'ABA', 'BAA', 'BBA', 'BAB', 'ABB'],
  'duo-trio': ['AAB', 'ABA', 'BBA', 'BAB'],
  'two-afc': ['AB', 'BA'],
  'three-afc': ['ABB', 'BAB', 'BBA'],
  tetrad: ['AABB', 'ABAB', 'ABBA', 'BBAA', 'BABA', 'BAAB'],
} as const

test.each(PROTOCOLS)(
  '%s: every order comes equally often within one, counted in the database, with added seats too',
  async (protocol) => {
    const property = protocol.endsWith('afc') ? 'sweeter' : null
    for (const [seatCount, each, added] of [
      [8, 1, 0],
      // of a property one answer each is asked
      [12, property === null ? 2 : 1, 5],
      [25, 1, 6],
      [60, 1, 7],
    ] as const) {
      const panelId = await openDifferencePanel(cafe, { protocol, property, each }, { seatCount })
      if (added > 0) expect(await addSeats(cafe.world, cafe.owner, panelId, added)).toMatchObject({ ok: true })
      const sets = await setsOf(panelId)
      expect(sets).toHaveLength((seatCount + added) * each)
      const times = orders[protocol].map((order) => sets.filter((set) => set === order).length)
      expect(
        times.reduce((sum, one) => sum + one, 0),
        'nothing else is served',
      ).toBe(sets.length)
      expect(Math.max(...times) - Math.min(...times), `${seatCount} and ${added} seats`).toBeLessThanOrEqual(1)
    }
    await balanced()
  },
)

test('codes differ within a seat, pourings are counted, and sets follow each other', async () => {
  const panelId = await openDifferencePanel(cafe, { each: 3 }, { seatCount: 10 })
  const seats = await cafe.db.seat.findMany({
    where: { panelId },
    select: { servings: { orderBy: { position: 'asc' }, include: { set: true } } },
  })
  for (const { servings } of seats) {
    expect(servings.map(({ position }) => position)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
    expect(servings.map(({ set }) => set?.number)).toEqual([1, 1, 1, 2, 2, 2, 3, 3, 3])
    expect(new Set(servings.map(({ code }) => code)).size).toBe(9)
    expect(new Set(servings.map(({ code }) => code[0])).size, 'no two begin alike').toBe(9)
  }
  await balanced()
})

test('lists, mats, caffeine and what the door says count every pouring', async () => {
  const once = await openDifferencePanel(cafe, { protocol: 'two-afc', property: 'sweeter' }, { sampleMl: 30 })
  const panelId = await openDifferencePanel(cafe, { each: 2 }, { seatCount: 8, sampleMl: 30 })
  // 8 seats, 2 triangles: 48 cups, half of them of either; 24 portions of 30 ml and 15 % are 828 ml
  expect(await readListHead(cafe.world, cafe.owner, panelId, 'filling')).toMatchObject({ portions: 24, mlPerJug: 828 })
  expect(await readPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ portionsPerCup: 24, mlPerTaster: 180 })
  const mats = await readMats(cafe.world, cafe.owner, panelId)
  expect(mats?.seats.map(({ codes }) => codes.length)).toEqual(Array(8).fill(6))
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const door = await readJoin(cafe.world, { kind: 'join', token: joinToken }, null)
  expect(door).toMatchObject({ ok: true, value: { cups: 6, kind: 'difference' } })
  const money = { ...cafe.owner, cafe: { allergenList: 'eu', currency: 'EUR' } } as never
  const [two, six] = [await caffeineOf(once, money), await caffeineOf(panelId, money)]
  // a seat has four of one and two of the other: the most one drinks lies above three of each
  expect(six.high).toBeGreaterThanOrEqual(3 * two.high - 1e-9)
  expect(six.low).toBeLessThanOrEqual(3 * two.low + 1e-9)
})

async function caffeineOf(panelId: string, reader: Parameters<typeof readPanelCaffeine>[1]) {
  const found = await readPanelCaffeine(cafe.world, reader, panelId)
  return (found?.known ? found : found?.atLeast) ?? { low: 0, high: 0 }
}

test('a plan, and a copy of it, keep what is asked', async () => {
  const panelId = await openDifferencePanel(cafe, { aim: 'alike', share: 20 })
  await closePanel(cafe.world, cafe.owner, panelId)
  const again = await copyPanel(cafe.world, cafe.owner, panelId)
  const copied = again.ok ? await readPanel(cafe.world, cafe.owner, again.value) : null
  expect(copied?.plan).toMatchObject({ asks: { kind: 'difference', aim: 'alike', protocol: 'triangle', share: 20 } })
  await balanced()
})

test('sets are answered one by one, whole or not at all, and the seat has finished after the last', async () => {
  const panelId = await openDifferencePanel(cafe, { each: 2 })
  const ana = await differencePhone(cafe.world, panelId)
  expect(await ana.answer([])).toMatchObject({ reason: 'no-such-answer' })
  expect(await ana.answer([4])).toMatchObject({ reason: 'no-such-answer' })
  expect(await ana.answer([1], 3)).toMatchObject({ reason: 'not-your-set' })
  expect(await ana.lock()).toMatchObject({ reason: 'answers-missing' })
  expect(await ana.tell(true)).toMatchObject({ ok: true })
  const seat = async () => (await readProgress(cafe.world, cafe.owner, panelId))?.seats[0]
  expect(await seat()).toMatchObject({ state: 'tasting' })
  expect(await ana.answer([2], 1)).toMatchObject({ reason: 'locked' })
  expect(await ana.tell(false, 2)).toMatchObject({ ok: true })
  expect(await seat()).toMatchObject({ state: 'finished' })
  await balanced()
})
