/** An act that lost to another in the same instant is begun anew; any other fault, and a COMMIT nobody answered, is not. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { theSeatBrake } from '@/lib/auth/seat-brake'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findFault } from '@/lib/db/engine/fault'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import type { World } from '@/lib/tasks/world'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'
import { failingDatabase, type FailingDatabase } from '@/test/support/failing-driver'

let cafe: TestCafe
let failing: FailingDatabase
let world: World
beforeEach(async () => {
  cafe = await cafeForTest()
  failing = failingDatabase(cafe.file)
  await failing.db.cafe.count() // connected
  world = { ...cafe.world, db: failing.db }
})
afterEach(async () => {
  await failing.db.$disconnect()
  await cafe.close()
})

let begun = 0
beforeEach(() => (begun = 0))
const renaming = () =>
  inTransaction(world, async (tx) => {
    begun++
    await tx.recipe.update({ where: { id: cafe.recipeId }, data: { name: 'Renamed' } })
    await tx.recipe.update({ where: { id: cafe.recipeId }, data: { note: 'as well' } })
    return begun
  })
const name = async () => (await cafe.db.recipe.findUniqueOrThrow({ where: { id: cafe.recipeId } })).name

test('a busy database is asked again, at whichever call it was busy', async () => {
  failing.fail(null)
  await renaming()
  const { calls } = failing
  expect(calls).toBeGreaterThan(3)
  for (let at = 1; at <= calls; at++) {
    failing.fail({ at, manner: 'once', as: 'busy' })
    await renaming()
    expect(failing.hasFailed, `call ${at}`).toBe(true)
  }
  expect(await name()).toBe('Renamed')
})

test('a database that stays busy is asked three times, and nothing is written', async () => {
  failing.fail({ at: 2, manner: 'lasting', as: 'busy' })
  const error: unknown = await renaming().catch((caught: unknown) => caught)
  expect(findFault(error)?.name).toBe('busy')
  expect(await name()).toBe('Cold kiosk coffee')
  failing.fail(null)
  await renaming()
  expect(await name()).toBe('Renamed')
})

test('a broken disk is not asked again', async () => {
  failing.fail({ at: 2, manner: 'once' })
  await expect(renaming()).rejects.toThrow()
  expect(begun).toBe(1)
  expect(await name()).toBe('Cold kiosk coffee')
})

test('a COMMIT that was done and not answered is not done again', async () => {
  failing.fail({ at: 'commit', manner: 'unanswered' })
  await expect(renaming()).rejects.toThrow()
  expect(begun).toBe(1)
  expect(await name()).toBe('Renamed')
})

test('a seat that was taken at the second attempt, or not at all, counts once or not at the brake', async () => {
  const planned = await planPanel(world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new RangeError(planned.reason)
  expect(await openPanel(world, cafe.owner, planned.value)).toMatchObject({ ok: true })
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id: planned.value } })
  const address = '192.0.2.77' // RFC 5737, for documentation
  const sit = () =>
    takeSeat(world, { kind: 'join', token: joinToken }, { browser: world.token(), name: 'Ina', address, userId: null })
  const left = () => {
    let free = 0
    while (theSeatBrake.take(address, world.now()) === 0) free++
    for (let back = 0; back < free; back++) theSeatBrake.giveBack(address, world.now())
    return free
  }
  const before = left()
  failing.fail({ at: 'commit', manner: 'once' })
  await expect(sit()).rejects.toThrow()
  expect(left()).toBe(before)
  failing.fail({ at: 'commit', manner: 'once', as: 'busy' })
  expect(await sit()).toMatchObject({ ok: true })
  expect(left()).toBe(before - 1)
})
