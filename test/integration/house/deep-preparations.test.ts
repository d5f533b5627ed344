/** Preparations of preparations, as deep as a file or a house may have them and deeper. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { BatchForm } from '@/lib/forms/preparation-form'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { freezeTrial } from '@/lib/tasks/trial/freeze-trial'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { correctBatch, recordBatch, type BatchCook } from '@/lib/tasks/store/keep-batch'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { worldOf, type World } from '@/lib/tasks/world'
import { freshDatabase, type FreshDatabase } from '@/test/support/fresh-database'
import { nestedFile } from '@/test/support/nested-file'

let fresh: FreshDatabase
let world: World
let cook: BatchCook & {
  readonly cafe: { currency: string; currencyDigits: number; allergenList: string; timeZone: string }
}
let recipeId: string

beforeAll(async () => {
  fresh = await freshDatabase()
  world = worldOf(fresh.db)
  await foundDemoHouse(world)
  const member = await fresh.db.membership.findFirstOrThrow()
  recipeId = (await fresh.db.recipe.findFirstOrThrow()).id
  const cafe = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'Europe/Berlin' }
  cook = { userId: member.userId, cafeId: member.cafeId, cafe }
})
afterAll(() => fresh.close())

const imported = () => importTrial(world, cook, recipeId, JSON.stringify(nestedFile(12, 2)))

test('twelve levels, each poured twice into the next, come in as twelve batches and go out as twelve preparations', async () => {
  const before = await fresh.db.preparationBatch.count()
  const brought = await imported()
  if (!brought.ok) throw new Error(brought.detail?.['message'])
  expect(await fresh.db.preparationBatch.count()).toBe(before + 12)
  // By hand: the innermost takes sugar and water, each of the eleven others the one below it twice.
  const names = Array.from({ length: 12 }, (_, place) => `Level ${place + 1}`)
  expect(await fresh.db.batchInput.count({ where: { batch: { preparation: { name: { in: names } } } } })).toBe(
    2 + 11 * 2,
  )

  const written = async () => {
    const file = await exportTrial(world, cook, brought.value)
    return Object.keys(JSON.parse(file?.content ?? '{}').preparations)
  }
  expect(await written()).toHaveLength(12)
  await world.db.$transaction((tx) => freezeTrial(tx, world, brought.value))
  expect(await written()).toHaveLength(12)
  const sheet = await readTrial(world, cook, brought.value)
  // By hand: 50 g of a syrup that is half sugar.
  expect(sheet?.figures.sugars).toMatchObject({ known: true })
  expect(sheet?.figures.sugars.known && sheet.figures.sugars.value).toBeCloseTo(25, 6)
  const tops = new Set(sheet?.build.lines[0]?.preparation?.inputs.map((line) => line.preparation))
  expect(tops.size).toBe(1)
})

test('a file of 18 levels is refused in words, and nothing is written', async () => {
  const before = [
    await fresh.db.preparationBatch.count(),
    await fresh.db.trial.count(),
    await fresh.db.auditRow.count(),
  ]
  expect(await importTrial(world, cook, recipeId, JSON.stringify(nestedFile(18, 2)))).toEqual({
    ok: false,
    reason: 'too-large',
    detail: { path: 'preparations', message: 'are nested 18 deep; at most 12 may stand one inside the other' },
  })
  expect([
    await fresh.db.preparationBatch.count(),
    await fresh.db.trial.count(),
    await fresh.db.auditRow.count(),
  ]).toEqual(before)
})

const pour = (batchId: string) => BatchForm.parse({ inputs: [{ part: `batch:${batchId}`, amount: '10' }] })

test('a batch is saved twelve deep, not thirteen, whether new or corrected from below or above', async () => {
  await imported()
  const batchOf = (name: string) =>
    fresh.db.preparationBatch.findFirstOrThrow({
      where: { preparation: { name }, frozenAt: null },
      orderBy: { number: 'desc' },
    })
  const [top, eleventh, lowest] = [await batchOf('Level 12'), await batchOf('Level 11'), await batchOf('Level 1')]
  const deep = { ok: false, reason: 'too-deep', detail: { most: '12' } }
  expect(await recordBatch(world, cook, lowest.preparationId, pour(top.id))).toEqual(deep)
  const twelfth = await recordBatch(world, cook, lowest.preparationId, pour(eleventh.id))
  if (!twelfth.ok) throw new Error(twelfth.reason)
  expect(await correctBatch(world, cook, twelfth.value, pour(top.id), null)).toEqual(deep)

  // The lowest of twelve may not be made of another preparation: that would make thirteen.
  const apart = await recordBatch(
    world,
    cook,
    lowest.preparationId,
    BatchForm.parse({
      inputs: [{ part: `ingredient:${(await fresh.db.ingredient.findFirstOrThrow()).id}`, amount: '10' }],
    }),
  )
  if (!apart.ok) throw new Error(apart.reason)
  expect(await correctBatch(world, cook, lowest.id, pour(apart.value), null)).toEqual(deep)
})

test('what stood deeper before there was a limit is read, and corrected as long as it grows no deeper', async () => {
  await imported()
  const top = await fresh.db.preparationBatch.findFirstOrThrow({
    where: { preparation: { name: 'Level 12' } },
    orderBy: { createdAt: 'desc' },
  })
  // As the first version would have written it: a thirteenth around the twelve.
  const { preparationId, cafeId } = top
  const last = await fresh.db.preparationBatch.aggregate({ where: { preparationId }, _max: { number: true } })
  const outer = {
    id: 'the-thirteenth',
    cafeId,
    preparationId,
    number: (last._max.number ?? 0) + 1,
    createdAt: new Date(),
  }
  await fresh.db.preparationBatch.create({ data: outer })
  await fresh.db.batchInput.create({
    data: {
      id: 'in-13',
      cafeId,
      batchId: outer.id,
      position: 1,
      inputBatchId: top.id,
      amountMg: 10_000,
      typed: '10',
      unit: 'g',
    },
  })
  expect(await correctBatch(world, cook, outer.id, pour(top.id), null)).toMatchObject({ ok: true })
})
