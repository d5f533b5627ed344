/**
 * An open panel of an invented kiosk, laid straight into a fresh database: three trials of one drink, their ingredients
 * (one of them inside a syrup inside a syrup), seats with cards, servings with codes. Names that must not reach a
 * taster's phone are unlike any word on a screen, so that a search for them means something.
 */
import { worldOf, type World } from '@/lib/tasks/world'
import type { Db } from '@/lib/db/engine/client'
import { freshDatabase } from './fresh-database'

export type OpenPanel = {
  readonly world: World
  readonly db: Db
  readonly url: string
  readonly cafeId: string
  readonly panelId: string
  readonly joinToken: string
  readonly userId: string
  readonly seats: readonly { readonly id: string; readonly number: number; readonly cardToken: string }[]
  /** everything that would tell which cup is which: ids, names, the key, the seed */
  readonly secrets: readonly string[]
  /** moves the clock on */
  pass(milliseconds: number): void
  close(): Promise<void>
}

export type PanelShape = { readonly seats?: number; readonly attributes?: readonly string[]; readonly stage?: string }

const BEGIN = Date.parse('2026-03-14T10:00:00Z')

/** Latin square: each cup in each place once. Enough for a fixture; real orders come from lib/panel/order. */
const ORDERS = [
  [0, 1, 2],
  [1, 2, 0],
  [2, 0, 1],
] as const

export async function openPanelForTest(shape: PanelShape = {}): Promise<OpenPanel> {
  const fresh = await freshDatabase()
  let clock = BEGIN
  const world: World = { ...worldOf(fresh.db), now: () => new Date(clock) }
  const laid = await layPanel(world, shape)
  return {
    ...laid,
    world,
    db: fresh.db,
    url: fresh.url,
    pass: (milliseconds) => (clock += milliseconds),
    close: () => fresh.close(),
  }
}

export async function layPanel(world: World, shape: PanelShape = {}) {
  const { db } = world
  const createdAt = world.now()
  const cafeId = world.id()
  const userId = world.id()
  await db.cafe.create({ data: { id: cafeId, name: 'Kiosk for tests', allergenList: 'eu', createdAt } })
  await db.user.create({
    data: { id: userId, email: `${userId}@example.test`, name: 'Pourer', passwordHash: '-', createdAt },
  })
  await db.membership.create({ data: { id: world.id(), cafeId, userId, role: 'pourer', createdAt } })

  const ingredients = await layIngredients(world, cafeId)
  const trials = await layTrials(world, cafeId, ingredients)
  const panelId = world.id()
  const joinToken = world.token()
  const names = shape.attributes ?? ['Overall liking', 'Sweetness']
  await db.panel.create({
    data: {
      id: panelId,
      cafeId,
      recipeId: trials.recipeId,
      title: 'Vexquorn house title',
      publicTitle: 'A cold coffee drink',
      question: 'Vexquorn owner question?',
      stage: shape.stage ?? 'open',
      primaryKind: 'all-pairs',
      seatCount: shape.seats ?? 3,
      sampleMl: 40,
      joinToken,
      orderSeed: 918273645,
      createdAt,
      openedAt: createdAt,
      attributes: {
        create: names.map((name, position) => ({ id: world.id(), cafeId, position, name, kind: 'liking-9' })),
      },
    },
  })
  const cupIds = await layCups(world, cafeId, panelId, trials.trialIds)
  const seats = await laySeats(world, cafeId, panelId, cupIds, shape.seats ?? 3)
  const servingIds = (await db.serving.findMany({ where: { panelId }, select: { id: true } })).map(({ id }) => id)
  const secrets = [
    ...[cafeId, panelId, userId, trials.recipeId, ...trials.trialIds, ...cupIds, ...servingIds],
    ...seats.map(({ id }) => id),
    ...Object.values(ingredients).map(({ id }) => id),
    ...['Vexquorn', 'Zephyrine', 'Quillberry', 'Ombrelle', '918273645'],
  ]
  return { cafeId, userId, panelId, joinToken, seats, secrets }
}

async function layIngredients(world: World, cafeId: string) {
  const add = async (
    name: string,
    kind: string,
    read: boolean,
    allergens: Record<string, string>,
    more: { caffeineHighMg100g?: number; sugarsMg?: number } = {},
  ) => {
    const id = world.id()
    const create = Object.entries(allergens).map(([allergen, state]) => ({ id: world.id(), cafeId, allergen, state }))
    await world.db.ingredient.create({
      data: {
        id,
        cafeId,
        name,
        kind,
        createdAt: world.now(),
        labelReadAt: read ? world.now() : null,
        ...more,
        allergens: { create },
      },
    })
    return { id, name }
  }
  return {
    coffee: await add('Zephyrine beans', 'coffee', true, {}),
    milk: await add('Zephyrine whole milk', 'milk', true, { milk: 'contains', 'tree-nuts': 'may-contain' }),
    sugar: await add('Quillberry sugar', 'sweetener', true, {}, { sugarsMg: 100_000 }),
    paste: await add('Quillberry paste', 'other', true, { sesame: 'contains', lupin: 'not-stated' }),
    soak: await add('Ombrelle soak', 'sweetener', true, { celery: 'may-contain' }),
  }
}

async function layTrials(world: World, cafeId: string, parts: Awaited<ReturnType<typeof layIngredients>>) {
  const { db } = world
  const createdAt = world.now()
  const batch = async (name: string, inputs: { ingredientId?: string; inputBatchId?: string }[]) => {
    const id = world.id()
    const preparationId = world.id()
    await db.preparation.create({ data: { id: preparationId, cafeId, name, kind: 'syrup', createdAt } })
    await db.preparationBatch.create({
      data: {
        id,
        cafeId,
        preparationId,
        number: 1,
        createdAt,
        inputs: {
          create: inputs.map((input, i) => ({
            id: world.id(),
            cafeId,
            position: i + 1,
            amountMg: 100_000,
            typed: '100',
            unit: 'g',
            ...input,
          })),
        },
      },
    })
    return id
  }
  const inner = await batch('Quillberry base', [{ ingredientId: parts.paste.id }])
  const syrup = await batch('Quillberry syrup', [{ ingredientId: parts.sugar.id }, { inputBatchId: inner }])

  const recipeId = world.id()
  await db.recipe.create({ data: { id: recipeId, cafeId, name: 'Vexquorn recipe name', createdAt } })
  const trialIds: string[] = []
  const builds = [
    [{ ingredientId: parts.coffee.id }, { ingredientId: parts.milk.id }],
    [{ ingredientId: parts.coffee.id }, { batchId: syrup }],
    [{ ingredientId: parts.coffee.id }, { ingredientId: parts.soak.id }],
  ]
  for (const [i, lines] of builds.entries()) {
    const id = world.id()
    await db.trial.create({
      data: {
        id,
        cafeId,
        recipeId,
        number: i + 1,
        name: `Vexquorn trial ${i + 1}`,
        method: 'immersion',
        createdAt,
        frozenAt: createdAt,
        lines: {
          create: lines.map((line, position) => ({
            id: world.id(),
            cafeId,
            position: position + 1,
            role: 'other',
            targetMg: 60_000,
            typed: '60',
            unit: 'g',
            ...line,
          })),
        },
      },
    })
    trialIds.push(id)
  }
  return { recipeId, trialIds }
}

async function layCups(world: World, cafeId: string, panelId: string, trialIds: readonly string[]) {
  const ids: string[] = []
  for (const [i, trialId] of trialIds.entries()) {
    const id = world.id()
    await world.db.cup.create({
      data: { id, cafeId, panelId, trialId, place: i + 1, design: i + 1, jugLetter: 'KLM'.charAt(i) },
    })
    ids.push(id)
  }
  return ids
}

async function laySeats(world: World, cafeId: string, panelId: string, cupIds: readonly string[], count: number) {
  const seats: { id: string; number: number; cardToken: string }[] = []
  for (let number = 1; number <= count; number++) {
    const id = world.id()
    const cardToken = world.token()
    const order = ORDERS[(number - 1) % ORDERS.length] ?? ORDERS[0]
    await world.db.seat.create({
      data: {
        id,
        cafeId,
        panelId,
        number,
        cardToken,
        createdAt: world.now(),
        servings: {
          create: order.map((cup, i) => ({
            id: world.id(),
            cafeId,
            panelId,
            cupId: cupIds[cup] ?? '',
            position: i + 1,
            code: codeOf(number, i),
          })),
        },
      },
    })
    seats.push({ id, number, cardToken })
  }
  return seats
}

/** Codes a test can name: seat 1 has 211, 212, 213; seat 2 has 221, … */
export function codeOf(seat: number, place: number): string {
  return String(200 + seat * 10 + place + 1)
}
