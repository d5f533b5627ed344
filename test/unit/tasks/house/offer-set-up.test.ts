import { afterEach, beforeEach, expect, test } from 'vitest'
import { offerSetUp } from '@/lib/tasks/house/offer-set-up'
import { canSetUp } from '@/lib/tasks/house/set-up-house'
import { worldOf, type World } from '@/lib/tasks/world'
import { freshDatabase, type FreshDatabase } from '../../../support/fresh-database'

let fresh: FreshDatabase
let world: World

beforeEach(async () => {
  fresh = await freshDatabase()
  world = worldOf(fresh.db)
})

afterEach(async () => {
  await fresh.close()
})

test('only the hash of the token is kept', async () => {
  const token = (await offerSetUp(world)) ?? ''
  expect(token).toMatch(/^[\w-]{43}$/)
  expect(await canSetUp(world, token)).toBe(true)
  expect(JSON.stringify(await fresh.db.oneTimeLink.findMany())).not.toContain(token)
})

test('a new offer ends the one before', async () => {
  const first = (await offerSetUp(world)) ?? ''
  const second = (await offerSetUp(world)) ?? ''
  expect(await canSetUp(world, first)).toBe(false)
  expect(await canSetUp(world, second)).toBe(true)
})

test('once somebody has an account nothing is offered, and what was offered ends', async () => {
  const token = (await offerSetUp(world)) ?? ''
  await fresh.db.user.create({
    data: { id: 'u', email: 'noor@example.test', name: 'Noor', passwordHash: 'x', createdAt: new Date(0) },
  })
  expect(await offerSetUp(world)).toBeNull()
  expect(await canSetUp(world, token)).toBe(false)
})
