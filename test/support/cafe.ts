/**
 * An invented café with one recipe and weighed trials, nothing planned yet: what a person has before the first panel.
 * The names are unlike any word on a screen, so that searching for them means something.
 */
import { rmSync } from 'node:fs'
import { dirname } from 'node:path'
import type { PlanTyped } from '@/lib/forms/panel-form'
import { worldOf, type Reader, type World } from '@/lib/tasks/world'
import type { Db } from '@/lib/db/engine/client'
import { likingQuestion } from '@/lib/panel/question'
import { freshDatabase } from './fresh-database'

export type TestCafe = {
  readonly world: World
  readonly db: Db
  /** path of the database */
  readonly file: string
  readonly owner: Reader
  readonly secondOwner: Reader
  readonly pourer: Reader
  /** owner of another café: must never see anything of this one */
  readonly stranger: Reader
  readonly recipeId: string
  /** four trials; the last contains `unreadId` through a syrup inside a syrup */
  readonly trialIds: readonly string[]
  readonly unreadId: string
  readonly batchIds: readonly string[]
  /** a plan that can be opened */
  plan(more?: Partial<PlanTyped>): PlanTyped
  /** moves the clock on */
  pass(milliseconds: number): void
  close(): Promise<void>
}

type Laid = Awaited<ReturnType<typeof layCafe>>

const START = Date.parse('2026-03-14T10:00:00Z')

/** Laid out once in a worker; every test has a copy of the file. */
let before: Promise<{ readonly file: string; readonly laid: Laid }> | undefined

async function laidBefore() {
  const fresh = await freshDatabase()
  const laid = await layCafe({ ...worldOf(fresh.db), now: () => new Date(START) })
  await fresh.db.$disconnect()
  process.once('exit', () => rmSync(dirname(fresh.file), { recursive: true, force: true }))
  return { file: fresh.file, laid }
}

export async function cafeForTest(): Promise<TestCafe> {
  const { file, laid } = await (before ??= laidBefore())
  const fresh = await freshDatabase(file)
  let clock = START
  const world: World = { ...worldOf(fresh.db), now: () => new Date(clock) }
  return {
    ...laid,
    world,
    db: fresh.db,
    file: fresh.file,
    plan: (more = {}) => ({
      title: 'Kiosk question',
      publicTitle: 'Three cold coffees',
      question: 'Is one liked better?',
      cups: laid.trialIds.slice(0, 3),
      duplicate: null,
      aspects: [likingQuestion('Sweetness')],
      seatCount: 6,
      cupsPerTaster: null,
      aim: 'best',
      primaryKind: 'all-pairs',
      pairA: null,
      pairB: null,
      smallestDifference: 10,
      notWorseMargin: null,
      sampleMl: 40,
      seenThrough: null,
      nothingSeen: true,
      ...more,
    }),
    pass: (milliseconds) => (clock += milliseconds),
    close: () => fresh.close(),
  }
}

async function layCafe(world: World) {
  const cafeId = await addCafe(world, 'Kiosk for tests')
  const owner = await addPerson(world, cafeId, 'Ottoline', 'owner')
  const secondOwner = await addPerson(world, cafeId, 'Barnaby', 'owner')
  const pourer = await addPerson(world, cafeId, 'Percival', 'pourer')
  const elsewhere = await addCafe(world, 'Another kiosk')
  const stranger = await addPerson(world, elsewhere, 'Sidonie', 'owner')
  const drink = await layDrink(world, cafeId)
  return { owner, secondOwner, pourer, stranger, ...drink }
}

async function addCafe(world: World, name: string): Promise<string> {
  const id = world.id()
  await world.db.cafe.create({ data: { id, name, allergenList: 'eu', createdAt: world.now() } })
  return id
}

async function addPerson(world: World, cafeId: string, name: string, role: string): Promise<Reader> {
  const userId = world.id()
  const email = `${name.toLowerCase()}@example.test`
  await world.db.user.create({ data: { id: userId, email, name, passwordHash: '-', createdAt: world.now() } })
  await world.db.membership.create({ data: { id: world.id(), cafeId, userId, role, createdAt: world.now() } })
  return { userId, cafeId, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } }
}

async function layDrink(world: World, cafeId: string) {
  const { db } = world
  const createdAt = world.now()
  const ingredient = async (name: string, kind: string, read: boolean) => {
    const id = world.id()
    await db.ingredient.create({ data: { id, cafeId, name, kind, createdAt, labelReadAt: read ? createdAt : null } })
    return id
  }
  const coffee = await ingredient('Zephyrine beans', 'coffee', true)
  const milk = await ingredient('Zephyrine milk', 'milk', true)
  const sugar = await ingredient('Quillberry sugar', 'sweetener', true)
  const unreadId = await ingredient('Quillberry paste', 'other', false)

  const batch = async (name: string, inputs: { ingredientId?: string; inputBatchId?: string }[]) => {
    const [id, preparationId] = [world.id(), world.id()]
    await db.preparation.create({ data: { id: preparationId, cafeId, name, kind: 'syrup', createdAt } })
    const create = inputs.map((input, position) => ({
      id: world.id(),
      cafeId,
      position,
      amountMg: 100_000,
      typed: '100',
      unit: 'g',
      ...input,
    }))
    await db.preparationBatch.create({
      data: { id, cafeId, preparationId, number: 1, createdAt, inputs: { create } },
    })
    return id
  }
  const inner = await batch('Ombrelle base', [{ ingredientId: unreadId }])
  const outer = await batch('Ombrelle syrup', [{ ingredientId: sugar }, { inputBatchId: inner }])

  const recipeId = world.id()
  await db.recipe.create({ data: { id: recipeId, cafeId, name: 'Cold kiosk coffee', createdAt } })
  const builds = [
    [{ ingredientId: coffee }, { ingredientId: milk }],
    [{ ingredientId: coffee }, { ingredientId: sugar }],
    [{ ingredientId: coffee }],
    [{ ingredientId: coffee }, { batchId: outer }],
  ]
  const trialIds: string[] = []
  for (const [at, lines] of builds.entries()) {
    const id = world.id()
    const create = lines.map((line, position) => ({
      id: world.id(),
      cafeId,
      position,
      role: 'other',
      targetMg: 60_000,
      typed: '60',
      unit: 'g',
      ...line,
    }))
    await db.trial.create({
      data: {
        id,
        cafeId,
        recipeId,
        number: at + 1,
        name: `Velvetine ${at + 1}`,
        method: 'immersion',
        createdAt,
        lines: { create },
      },
    })
    trialIds.push(id)
  }
  return { recipeId, trialIds, unreadId, batchIds: [inner, outer] }
}
