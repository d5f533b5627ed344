/** Building a trial beside the scale: what is kept of it, who may keep it, how well it repeats, and what it may change. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { forgottenMarks } from '@/lib/db/forgotten-marks'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { forgetLeaver } from '@/lib/tasks/privacy/forget-leaver'
import { keepBarWeighing } from '@/lib/tasks/bar/keep-bar-weighing'
import { keepWeighing } from '@/lib/tasks/trial/keep-weighing'
import { readBuilt, repeatOf } from '@/lib/tasks/trial/read-built'
import { takeWeights } from '@/lib/tasks/trial/take-weights'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
/** 60 g of ready coffee and 60 g of milk; 2 % of each: ± 1.2 g */
let trialId: string

beforeEach(async () => {
  cafe = await cafeForTest()
  trialId = cafe.trialIds[0] ?? ''
  await cafe.db.ingredient.updateMany({ where: { kind: 'coffee' }, data: { form: 'liquid' } })
})
afterEach(() => cafe.close())

let sent = 0
const weighing = (coffee: number, milk: number, glasses = 1) => ({
  key: `weighing-${++sent}`,
  glasses,
  weights: [
    { position: 1, grams: coffee },
    { position: 2, grams: milk },
  ],
})
const build = (who = cafe.owner, ...of: Parameters<typeof weighing>) =>
  keepWeighing(cafe.world, who, trialId, weighing(...of))
const built = async () => {
  const sheet = await readBuilt(cafe.world, cafe.owner, trialId)
  if (!sheet) throw new Error('no such trial')
  return sheet
}

test('each building keeps who, when and how near; two people over two days make mean and spread', async () => {
  expect(await build(cafe.owner, 60.4, 61)).toEqual({ ok: true, value: { within: true } })
  cafe.pass(24 * 3_600_000)
  // 59 g of 120: far too little; two glasses are 2 × 60 g, ± 2.4 g
  expect(await build(cafe.secondOwner, 120.8, 115, 2)).toEqual({ ok: true, value: { within: false } })
  const sheet = await built()
  expect(sheet.built.map(({ by, within, glasses }) => [by, within, glasses])).toEqual([
    ['Barnaby', false, 2],
    ['Ottoline', true, 1],
  ])
  const [coffee, milk] = sheet.built[0]?.parts ?? []
  expect(coffee).toMatchObject({ name: 'Zephyrine beans', wanted: 120, within: true })
  expect([coffee?.off, coffee?.offPercent]).toEqual([expect.closeTo(0.8, 9), expect.closeTo(0.6667, 4)])
  // by hand: 115 of 120 is 5 g short, 4.17 %
  expect(milk).toMatchObject({ off: -5, offPercent: expect.closeTo(-4.1667, 4), within: false })
  // by hand: 60.4 and 60.4; 61 and 57.5, whose mean is 59.25 and deviation 3.5 / √2
  expect(sheet.lines).toMatchObject([
    { times: 2, mean: expect.closeTo(60.4, 9), deviation: expect.closeTo(0, 9), off: expect.closeTo(0.4, 9) },
    { times: 2, mean: expect.closeTo(59.25, 9), deviation: expect.closeTo(3.5 / Math.SQRT2, 9) },
  ])
})

test('what is sent again is answered as it was kept, whatever the sheet asks for by now', async () => {
  const once = weighing(60.4, 61)
  expect(await keepWeighing(cafe.world, cafe.owner, trialId, once)).toEqual({ ok: true, value: { within: true } })
  await cafe.db.trialLine.updateMany({ where: { trialId }, data: { targetMg: 40_000 } })
  expect(await keepWeighing(cafe.world, cafe.owner, trialId, once)).toEqual({ ok: true, value: { within: true } })
})

test('mean and standard deviation are those of R', () => {
  // R 4: x <- c(30.2, 29.5, 30.9, 31.4, 29.9); mean(x); sd(x)
  const line = repeatOf('Syrup', 30, [30.2, 29.5, 30.9, 31.4, 29.9])
  expect(line.mean).toBeCloseTo(30.38, 12)
  expect(line.deviation).toBeCloseTo(0.766159252375, 10)
  expect(line.off).toBeCloseTo(0.38, 12)
  expect(repeatOf('Syrup', 30, [30]).deviation).toBeNull()
  expect(repeatOf('Syrup', 30, [])).toMatchObject({ times: 0, mean: null, off: null })
})

test('what grounds were really brewed with is kept, and a dose too far off is beyond tolerance', async () => {
  await cafe.db.ingredient.updateMany({ where: { kind: 'coffee' }, data: { form: 'grounds' } })
  const brew = { position: 1, dose: 70, water: 600, temperature: 92, grind: 'medium', seconds: 240 }
  const kept = await keepWeighing(cafe.world, cafe.owner, trialId, {
    key: 'brewed-one',
    glasses: 1,
    weights: [],
    brew: [brew],
  })
  expect(kept).toEqual({ ok: true, value: { within: false } })
  const [one] = (await built()).built
  expect(one?.brewed).toMatchObject([brew])
  // by hand: 70 of 60 g dry
  expect(one?.brew).toMatchObject([{ wanted: 60, off: 10, within: false }])
})

test('a weighing without anything to hold against says neither yes nor no', async () => {
  const key = 'nothing-known'
  const kept = await keepWeighing(cafe.world, cafe.owner, trialId, {
    key,
    glasses: 1,
    weights: [{ position: 9, grams: 5 }],
  })
  expect(kept).toEqual({ ok: true, value: { within: null } })
})

test('weights become a draft’s own, for one glass; a line that asks for something else by now refuses', async () => {
  await build(cafe.owner, 121, 118, 2)
  const [row] = (await built()).built
  const take = () => takeWeights(cafe.world, cafe.owner, trialId, row?.id ?? '')
  expect(await takeWeights(cafe.world, cafe.stranger, trialId, row?.id ?? '')).toMatchObject({ reason: 'gone' })
  expect(await take()).toEqual({ ok: true, value: 2 })
  const lines = () => cafe.db.trialLine.findMany({ where: { trialId }, orderBy: { position: 'asc' } })
  expect((await lines()).map(({ weighedMg, targetMg }) => [weighedMg, targetMg])).toEqual([
    [60_500, 60_000],
    [59_000, 60_000],
  ])
  expect(await cafe.db.auditRow.count({ where: { act: 'weights-taken', subjectId: trialId } })).toBe(1)
  await cafe.db.trialLine.updateMany({ where: { trialId, position: 1 }, data: { targetMg: 80_000 } })
  expect(await take()).toMatchObject({ reason: 'sheet-changed' })
  // what was asked for on that day still stands beside what was weighed
  expect((await built()).built[0]?.parts[1]).toMatchObject({ wanted: 120 })
  expect((await built()).lines[1]).toMatchObject({ wanted: 80, times: 0 })
})

test('a frozen trial keeps its weights, and of brewed coffee it is the dry dose that is one', async () => {
  await build(cafe.owner, 61, 61)
  const [row] = (await built()).built
  await cafe.db.ingredient.updateMany({ where: { kind: 'coffee' }, data: { form: 'grounds' } })
  const brew = [{ position: 1, dose: 61, water: null, temperature: null, grind: null, seconds: null }]
  await keepWeighing(cafe.world, cafe.owner, trialId, { key: 'only-brewed', glasses: 1, weights: [], brew })
  const [brewed] = (await built()).built.filter(({ brewed: done }) => done.length > 0)
  expect(await takeWeights(cafe.world, cafe.owner, trialId, brewed?.id ?? '')).toEqual({ ok: true, value: 1 })
  expect(await cafe.db.trialLine.findFirst({ where: { trialId, position: 0 } })).toMatchObject({ weighedMg: 61_000 })
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId, reason: 'House taste.' })
  const before = await cafe.db.trialLine.findMany({ where: { trialId } })
  expect(await takeWeights(cafe.world, cafe.owner, trialId, row?.id ?? '')).toMatchObject({ reason: 'frozen' })
  expect(await cafe.db.trialLine.findMany({ where: { trialId } })).toEqual(before)
})

test('behind the bar the house recipe’s weights are kept, and those of no other trial', async () => {
  const keep = () => keepBarWeighing(cafe.world, cafe.pourer, cafe.recipeId, weighing(60, 60))
  expect(await keep()).toMatchObject({ reason: 'gone' })
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId, reason: 'House taste.' })
  expect(await keep()).toEqual({ ok: true, value: { within: true } })
  expect((await built()).built).toMatchObject([{ by: 'Percival' }])
  expect(await keepBarWeighing(cafe.world, cafe.stranger, cafe.recipeId, weighing(60, 60))).toMatchObject({ ok: false })
})

test('who left and asked to be forgotten is somebody here as well', async () => {
  await build(cafe.secondOwner, 60, 60)
  await cafe.db.membership.updateMany({
    where: { userId: cafe.secondOwner.userId },
    data: { removedAt: cafe.world.now() },
  })
  const marks = forgottenMarks(cafe.file)
  await forgetLeaver(cafe.world, marks, cafe.owner, cafe.secondOwner.userId)
  expect((await built()).built.map(({ by }) => by)).not.toContain('Barnaby')
})
