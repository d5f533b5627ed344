import { addBatch } from '@/lib/db/batches'
import { addPreparation } from '@/lib/db/preparations'
import { theDatabase } from '@/lib/db/engine/client'
import type { TrialSent } from '@/lib/forms/trial-form'
import { startRecipe } from '@/lib/tasks/recipe/keep-recipe'
import { recordTrial } from '@/lib/tasks/trial/record-trial'
import { theWorld } from '@/lib/tasks/world'

/** Writes a draft of twenty lines, every other one a preparation of a preparation of a preparation. @returns its id */
export async function writeLongSheet(): Promise<string> {
  const db = theDatabase()
  const world = theWorld()
  const owner = await db.membership.findFirstOrThrow({
    select: { cafeId: true, userId: true, cafe: { select: { currency: true, currencyDigits: true } } },
  })
  const { cafeId, userId: madeById } = owner
  const water = await db.ingredient.findFirstOrThrow({ where: { name: 'Drinking water' }, select: { id: true } })
  const syrup = await db.preparationBatch.findFirstOrThrow({ select: { id: true } })

  let inner = syrup.id
  for (const name of ['Thinned once', 'Thinned twice']) {
    const [preparationId, id, createdAt] = [world.id(), world.id(), world.now()]
    const input = (grams: number) => ({ id: world.id(), amountMg: grams * 1000, typed: String(grams), unit: 'g' })
    const batch = { id, cafeId, preparationId, outputMg: 290_000, microdensity: 1_100_000, madeAt: createdAt, madeById }
    await db.$transaction(async (tx) => {
      await addPreparation(tx, { id: preparationId, cafeId, name, kind: 'other', createdAt })
      const inputs = [
        { ...input(200), inputBatchId: inner },
        { ...input(100), ingredientId: water.id },
      ]
      await addBatch(tx, { ...batch, createdAt }, inputs)
    })
    inner = id
  }

  const parts = [`batch:${inner}`, `ingredient:${water.id}`]
  const sheet: TrialSent = {
    name: 'Twenty lines',
    method: 'other',
    coffeeTemperature: 22,
    iceTemperature: -10,
    lines: Array.from({ length: 20 }, (_, at) => ({
      role: 'other',
      part: parts[at % 2],
      amount: { value: 20, typed: '20' },
      unit: 'g',
      note: undefined,
    })),
    steps: [],
  }
  const recipe = await startRecipe(world, owner, { name: 'Long sheet', note: undefined })
  if (!recipe.ok) throw new Error(`the bench's recipe was refused: ${recipe.reason}`)
  const trial = await recordTrial(world, owner, recipe.value, sheet)
  if (!trial.ok) throw new Error(`the bench's sheet was refused: ${trial.reason}`)
  return trial.value
}
