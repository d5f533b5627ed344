/** Rows such as years leave behind, laid straight into a database. */
import type { Db } from '@/lib/db/engine/client'

const SOME = 1000
const at = new Date('2025-03-01T09:00:00Z')

async function inSome<Row>(rows: readonly Row[], write: (some: Row[]) => Promise<unknown>): Promise<void> {
  for (let from = 0; from < rows.length; from += SOME) await write(rows.slice(from, from + SOME))
}

const many = <Row>(howMany: number, row: (place: number) => Row) =>
  Array.from({ length: howMany }, (_, place) => row(place))

/**
 * Batches of three preparations, each of two ingredients of the store; every third is poured into the next of the second
 * preparation, so that some stand inside others. All but the last thirty are put aside.
 */
export async function layBatches(db: Db, cafeId: string, from: number, to: number): Promise<void> {
  const [sugar, water] = await db.ingredient.findMany({ where: { cafeId }, orderBy: { name: 'desc' }, take: 2 })
  const kinds = ['syrup', 'immersion-brew', 'other'] as const
  for (const kind of kinds) {
    const name = `Long kept ${kind}`
    const there = await db.preparation.findUnique({ where: { cafeId_name: { cafeId, name } } })
    if (!there) await db.preparation.create({ data: { id: `long-${kind}`, cafeId, name, kind, createdAt: at } })
  }
  const batchId = (place: number) => `long-${place}`
  const rows = many(to - from, (index) => {
    const place = from + index
    const kind = kinds[place % kinds.length] ?? 'other'
    return {
      id: batchId(place),
      cafeId,
      preparationId: `long-${kind}`,
      number: Math.floor(place / kinds.length) + 1,
      outputMg: 200_000,
      createdAt: at,
      archivedAt: place < to - 30 ? at : null,
    }
  })
  await inSome(rows, (data) => db.preparationBatch.createMany({ data }))
  const amount = { cafeId, amountMg: 100_000, typed: '100', unit: 'g' }
  const inputs = rows.flatMap(({ id }, index) => {
    const place = from + index
    const inner = place % 3 === 1 && index > 0 ? { inputBatchId: batchId(place - 1) } : { ingredientId: water?.id }
    return [
      { id: `${id}-1`, batchId: id, position: 1, ingredientId: sugar?.id, ...amount },
      { id: `${id}-2`, batchId: id, position: 2, ...inner, ...amount },
    ]
  })
  await inSome(inputs, (data) => db.batchInput.createMany({ data }))
}

/** Ingredients with a price and a mark each, drafts of one recipe with a line and a step each, panels and notes. */
export async function layEverything(db: Db, cafeId: string, recipeId: string, howMany: number): Promise<void> {
  const id = (what: string, place: number) => `many-${what}-${place}`
  const ingredients = many(howMany, (place) => ({
    id: id('ingredient', place),
    cafeId,
    name: `Ingredient ${place}`,
    kind: 'other',
    form: 'liquid',
    createdAt: at,
  }))
  await inSome(ingredients, (data) => db.ingredient.createMany({ data }))
  const marks = ingredients.map((one) => ({
    id: one.id,
    cafeId,
    ingredientId: one.id,
    allergen: 'milk',
    state: 'contains',
  }))
  await inSome(marks, (data) => db.ingredientAllergen.createMany({ data }))
  const pack = {
    packMg: 1_000_000,
    packTyped: '1',
    packUnit: 'kg',
    priceMinor: 250,
    since: at,
    day: '2025-03-01',
    createdAt: at,
  }
  const prices = ingredients.map((one) => ({ id: one.id, cafeId, ingredientId: one.id, ...pack }))
  await inSome(prices, (data) => db.ingredientPrice.createMany({ data }))
  const trials = many(howMany, (place) => ({
    id: id('trial', place),
    cafeId,
    recipeId,
    number: 1000 + place,
    name: `Version ${place}`,
    method: 'other',
    createdAt: at,
  }))
  await inSome(trials, (data) => db.trial.createMany({ data }))
  const lines = trials.map((one, place) => ({
    id: one.id,
    cafeId,
    trialId: one.id,
    position: 1,
    role: 'other',
    ingredientId: id('ingredient', place),
    targetMg: 100_000,
    typed: '100',
    unit: 'g',
  }))
  await inSome(lines, (data) => db.trialLine.createMany({ data }))
  const steps = trials.map((one) => ({ id: one.id, cafeId, trialId: one.id, position: 1, text: 'Stir.' }))
  await inSome(steps, (data) => db.trialStep.createMany({ data }))
  const words = { publicTitle: 'A drink', question: 'Which?', primaryKind: 'all-pairs', seatCount: 12, stage: 'closed' }
  const panels = many(howMany, (place) => ({
    id: id('panel', place),
    cafeId,
    recipeId,
    title: `Panel ${place}`,
    joinToken: id('panel', place),
    createdAt: at,
    openedAt: at,
    closedAt: at,
    ...words,
  }))
  await inSome(panels, (data) => db.panel.createMany({ data }))
  const cups = panels.map((one, place) => ({
    id: one.id,
    cafeId,
    panelId: one.id,
    trialId: id('trial', place),
    place: 0,
  }))
  await inSome(cups, (data) => db.cup.createMany({ data }))
  const decisions = panels.map((one, place) => ({
    id: one.id,
    cafeId,
    recipeId,
    panelId: one.id,
    trialId: id('trial', place),
    kind: 'adopt',
    version: 1000 + place,
    reason: 'Better.',
    at,
  }))
  await inSome(decisions, (data) => db.decision.createMany({ data }))
  const recipes = many(howMany, (place) => ({ id: id('recipe', place), cafeId, name: `Drink ${place}`, createdAt: at }))
  await inSome(recipes, (data) => db.recipe.createMany({ data }))
}
