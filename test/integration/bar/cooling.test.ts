/** Readings of a thermometer: kept once, struck out and seen, never of a time to come, and only of what the bar may speak of. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { CoolingForm } from '@/lib/forms/cooling-form'
import { logCooling, strikeCooling } from '@/lib/tasks/bar/log-cooling'
import { needsCold, readCooling, readCoolingOnShelf } from '@/lib/tasks/bar/read-cooling'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let batchId: string
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  batchId = cafe.batchIds[0] ?? ''
})
afterEach(() => cafe.close())

const actor = () => ({ ...cafe.owner, cafe: { timeZone: 'UTC' } })
const key = (mark: string) => `reading-${mark}-1`
const log = (mark: string, celsius: string, at?: string, reads = true) =>
  logCooling(cafe.world, actor(), batchId, CoolingForm.parse({ key: key(mark), celsius, at }), reads)
const state = async () => (await readCooling(cafe.world, cafe.owner, [batchId]))[0]

test('the food code’s limits by the readings alone; the same reading sent twice is one, with one line in the diary', async () => {
  expect((await state())?.cooling).toEqual({ state: 'no-reading' })
  await log('a', '57', '2026-03-14T08:00')
  await log('a', '57', '2026-03-14T08:00')
  await log('b', '21,0', '2026-03-14T10:00')
  expect(await cafe.db.coolingReading.count()).toBe(2)
  expect(await cafe.db.auditRow.count({ where: { act: 'cooling-read' } })).toBe(2)
  expect((await state())?.cooling).toEqual({ state: 'running', celsius: 5, by: new Date('2026-03-14T14:00:00Z') })
  await log('c', '5')
  expect((await state())?.cooling).toEqual({ state: 'in-time' })
  expect((await state())?.readings.map(({ celsius, by }) => [celsius, by === null])).toEqual([
    [57, false],
    [21, false],
    [5, false],
  ])
})

test('what was mistyped is struck out, counts no more, and stays to be seen', async () => {
  await log('a', '57', '2026-03-14T09:00')
  await log('b', '2')
  expect((await state())?.cooling).toEqual({ state: 'in-time' })
  const wrong = (await state())?.readings.find(({ celsius }) => celsius === 2)?.id ?? ''
  expect(await strikeCooling(cafe.world, cafe.owner, wrong, true)).toEqual({ ok: true, value: null })
  expect(await strikeCooling(cafe.world, cafe.owner, wrong, true)).toMatchObject({ reason: 'gone' })
  expect((await state())?.cooling).toMatchObject({ state: 'running', celsius: 21 })
  expect((await state())?.readings.map(({ isStruck }) => isStruck)).toEqual([false, true])
  expect(await cafe.db.auditRow.count({ where: { act: 'cooling-struck-out' } })).toBe(1)
})

test('a time to come, a day that is none and a slip of the finger are refused', async () => {
  expect(await log('a', '4', '2026-03-14T10:06')).toMatchObject({ reason: 'not-yet' })
  expect(await log('b', '4', '2026-03-14T10:05')).toMatchObject({ ok: true })
  expect(await log('c', '4', '2026-13-41T10:05')).toMatchObject({ reason: 'no-time' })
  for (const celsius of ['', 'warm', '121', '-31'])
    expect(CoolingForm.safeParse({ key: key('d'), celsius }).error?.issues).toMatchObject([{ path: ['celsius'] }])
})

test('what no house recipe is made of is not the bar’s', async () => {
  expect(await log('a', '57', undefined, false)).toMatchObject({ reason: 'gone' })
  await log('b', '57')
  const { id = '' } = (await state())?.readings[0] ?? {}
  expect(await strikeCooling(cafe.world, cafe.owner, id, false)).toMatchObject({ reason: 'gone' })
  expect(
    await logCooling(cafe.world, { ...actor(), cafeId: 'another' }, batchId, { key: key('c'), celsius: 4 }, true),
  ).toMatchObject({
    reason: 'gone',
  })
})

test('on the shelf the newest batch is asked about where it is kept cold or nobody says where, others while they cool', async () => {
  const { preparationId } = await cafe.db.preparationBatch.findUniqueOrThrow({ where: { id: batchId } })
  const shown = async (keptAt: number | null) =>
    (await readCoolingOnShelf(cafe.world, cafe.owner, preparationId, keptAt)).map(({ number }) => number)
  expect([await shown(null), await shown(5), await shown(20)]).toEqual([[1], [1], []])
  await log('a', '57')
  expect(await shown(20)).toEqual([1])
  expect([needsCold(8), needsCold(8.1), needsCold(null)]).toEqual([true, false, true])
})
