import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findUsesOfIngredient, findUsesOfVessel } from '@/lib/db/uses'
import { findIngredient } from '@/lib/db/ingredients'
import { findNames } from '@/lib/db/people'
import { findPricesOn } from '@/lib/db/prices'
import { findVessel } from '@/lib/db/vessels'
import { densityProblems } from '@/lib/drink/ingredient-problem'
import { pricePerGram } from './price-per-gram'
import type { World, Reader } from '../world'

/** One ingredient with its label, its prices and where it is used. */
export async function readIngredient(world: World, reader: Reader, id: string) {
  const row = await findIngredient(world.db, reader.cafeId, id)
  if (!row) return null
  const people = [row.labelReadById, ...row.prices.flatMap((price) => [price.createdById, price.struckById])].filter(
    (one) => one !== null,
  )
  const [uses, names] = await Promise.all([
    findUsesOfIngredient(world.db, reader.cafeId, id),
    findNames(world.db, people),
  ])
  const { timeZone, currencyDigits } = await requireCafe(world.db, reader.cafeId)
  const [today] = await findPricesOn(world.db, reader.cafeId, [id], dayIn(world.now(), timeZone))
  const density = row.microdensity === null ? null : row.microdensity / 1_000_000
  const brix = row.brixHundredths === null ? null : row.brixHundredths / 100
  return {
    row,
    uses,
    labelReadBy: row.labelReadById ? (names.get(row.labelReadById) ?? 'somebody') : null,
    doubts: row.form === 'liquid' ? densityProblems('density', row.name, density, brix).map((one) => one.message) : [],
    prices: row.prices.map((price) => ({
      ...price,
      /** the one that holds today */
      counts: price.id === today?.price?.id,
      /** such a row cannot be a price: while it counts, the price is not known */
      isBad: pricePerGram(price, currencyDigits) === null,
      by: price.createdById ? (names.get(price.createdById) ?? 'somebody') : null,
      struckBy: price.struckById ? (names.get(price.struckById) ?? 'somebody') : null,
    })),
  }
}

export type IngredientCard = NonNullable<Awaited<ReturnType<typeof readIngredient>>>

export async function readVessel(world: World, reader: Reader, id: string) {
  const row = await findVessel(world.db, reader.cafeId, id)
  return row && { row, uses: await findUsesOfVessel(world.db, reader.cafeId, id) }
}
