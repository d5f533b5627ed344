import 'server-only'
import { dayIn, momentOf } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findHouseRecipes, type HouseRecipeRow } from '@/lib/db/house-recipe'
import { findPreparations } from '@/lib/db/preparations'
import { findDue } from '@/lib/db/shelf'
import type { Actor, World } from '../world'
import { findHousePreparations } from './house-preparations'
import { readPacks, type OpenPack } from './read-packs'
import { findServed } from './served'
import { readShelf, toPour, type ShelfBatch } from './shelf'

/** A preparation of a house recipe, and the batch of it that is poured next. */
export interface BarPreparation {
  readonly id: string
  readonly name: string
  /** null: none is in date */
  readonly pour: ShelfBatch | null
}

/** A batch whose date has come, or comes today. */
export interface DueBatch {
  readonly id: string
  readonly name: string
  readonly number: number
  readonly discardAt: Date
  readonly isPast: boolean
}

/** What whoever stands behind the bar needs: no draft, no cost, no result. */
export interface Bar {
  readonly recipes: readonly Pick<HouseRecipeRow, 'recipe' | 'version' | 'at'>[]
  readonly preparations: readonly BarPreparation[]
  readonly due: readonly DueBatch[]
  /** opened packs whose time has come, or comes today */
  readonly packs: readonly OpenPack[]
}

/** Lists longer than this are of a house that puts nothing aside. */
const DUE_SHOWN = 50

/** @param reads  may also be told of batches that no house recipe is made of */
export async function readBar(world: World, actor: Actor, reads: boolean): Promise<Bar> {
  const { db } = world
  const now = world.now()
  const { timeZone } = await requireCafe(db, actor.cafeId)
  const [recipes, mine, all] = await Promise.all([
    findHouseRecipes(db, actor.cafeId),
    findHousePreparations(db, actor.cafeId),
    findPreparations(db, actor.cafeId),
  ])
  const shelf = await readShelf(db, actor.cafeId, [...mine])
  const tonight = endOfDay(now, timeZone)
  const closed = (await findServed(db, actor)).preparations
  const others = reads ? await findDue(db, actor.cafeId, tonight, DUE_SHOWN) : []
  const told = others.filter(({ preparationId }) => !closed.has(preparationId))
  const { packs } = await readPacks(world, actor, reads)
  const due = new Map<string, DueBatch>()
  for (const { id, number, discardAt, ...batch } of [...shelf, ...told]) {
    if (discardAt === null || discardAt > tonight || due.has(id)) continue
    const name = 'name' in batch ? batch.name : batch.preparation.name
    due.set(id, { id, name, number, discardAt, isPast: discardAt <= now })
  }
  return {
    packs: packs.filter(({ discardAt }) => discardAt !== null && discardAt <= tonight),
    recipes: recipes.map(({ recipe, version, at }) => ({ recipe, version, at })),
    preparations: all
      .filter(({ id, archivedAt }) => mine.has(id) && archivedAt === null)
      .map(({ id, name }) => ({ id, name, pour: toPour(shelf, id, now) })),
    due: [...due.values()].toSorted(
      (a, b) => a.discardAt.getTime() - b.discardAt.getTime() || a.name.localeCompare(b.name) || a.number - b.number,
    ),
  }
}

/** The last minute of the café's own day. */
function endOfDay(now: Date, zone: string): Date {
  return momentOf(`${dayIn(now, zone)}T23:59`, zone) ?? now
}
