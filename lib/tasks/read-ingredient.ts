import 'server-only'
import { findIngredient, findUsesOfIngredient, findUsesOfVessel } from '@/lib/db/ingredient-card'
import { findNames } from '@/lib/db/people'
import { findVessel } from '@/lib/db/vessels'
import { densityProblems } from '@/lib/drink/ingredient-problem'
import type { Reader } from './read-recipe'
import type { World } from './world'

/** One ingredient with its label, its prices and where it is used. */
export async function readIngredient(world: World, reader: Reader, id: string) {
  const row = await findIngredient(world.db, reader.cafeId, id)
  if (!row) return null
  const people = [row.labelReadById, ...row.prices.map((price) => price.createdById)].filter((one) => one !== null)
  const [uses, names] = await Promise.all([
    findUsesOfIngredient(world.db, reader.cafeId, id),
    findNames(world.db, people),
  ])
  const density = row.microdensity === null ? null : row.microdensity / 1_000_000
  const brix = row.brixHundredths === null ? null : row.brixHundredths / 100
  return {
    row,
    uses,
    labelReadBy: row.labelReadById ? (names.get(row.labelReadById) ?? 'somebody') : null,
    doubts: row.form === 'liquid' ? densityProblems('density', row.name, density, brix).map((one) => one.message) : [],
    prices: row.prices.map((price) => ({
      ...price,
      by: price.createdById ? (names.get(price.createdById) ?? 'somebody') : null,
    })),
  }
}

export type IngredientCard = NonNullable<Awaited<ReturnType<typeof readIngredient>>>

export async function readVessel(world: World, reader: Reader, id: string) {
  const row = await findVessel(world.db, reader.cafeId, id)
  return row && { row, trials: await findUsesOfVessel(world.db, reader.cafeId, id) }
}
