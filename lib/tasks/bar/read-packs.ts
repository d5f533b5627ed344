import 'server-only'
import { allergensOf, type AllergenUnion } from '@/lib/drink/allergen'
import { findOpenable, findOpenPacks, findPack, type PackRow } from '@/lib/db/packs'
import { readStore } from '../store/reach-store'
import { allergenListOf } from '../trial/trial-build'
import type { Actor, Reader, World } from '../world'
import { findHouseIngredients } from './house-ingredients'

/** A pack that stands open. */
export interface OpenPack {
  readonly id: string
  readonly name: string
  readonly mark: string | null
  readonly openedAt: Date
  /** null where nobody said one: neither the house nor whoever opened it */
  readonly discardAt: Date | null
  readonly isPast: boolean
}

/** What may be opened: with the hours it keeps then, where the house says. */
export interface Openable {
  readonly id: string
  readonly name: string
  readonly openHours: number | null
}

const packOf = ({ id, ingredient, mark, openedAt, discardAt }: PackRow, now: Date): OpenPack => ({
  id,
  name: ingredient.name,
  mark,
  openedAt,
  discardAt,
  isPast: discardAt !== null && discardAt <= now,
})

/**
 * Packs that stand open, what must go first in front, and what may be opened.
 *
 * @param reads  may also see what no house recipe is made of
 */
export async function readPacks(
  world: World,
  actor: Pick<Actor, 'cafeId'>,
  reads: boolean,
): Promise<{ readonly packs: readonly OpenPack[]; readonly openable: readonly Openable[] }> {
  const mine = reads ? undefined : [...(await findHouseIngredients(world.db, actor.cafeId))]
  const [packs, openable] = await Promise.all([
    findOpenPacks(world.db, actor.cafeId, mine),
    findOpenable(world.db, actor.cafeId, mine),
  ])
  return { packs: packs.map((row) => packOf(row, world.now())), openable }
}

/** Open packs of one ingredient, for its own page. */
export async function readPacksOf(
  world: World,
  actor: Pick<Actor, 'cafeId'>,
  ingredientId: string,
): Promise<readonly OpenPack[]> {
  const rows = await findOpenPacks(world.db, actor.cafeId, [ingredientId])
  return rows.map((row) => packOf(row, world.now()))
}

/** What is stuck on an opened pack. */
export type PackLabel = OpenPack & { readonly allergens: AllergenUnion }

/** @param reads  as for `readPacks`. @returns null where there is no such pack open, or it is not the bar's */
export async function readPackLabel(
  world: World,
  reader: Reader,
  packId: string,
  reads: boolean,
): Promise<PackLabel | null> {
  const row = await findPack(world.db, reader.cafeId, packId)
  if (!row || row.doneAt !== null) return null
  if (!reads && !(await findHouseIngredients(world.db, reader.cafeId)).has(row.ingredientId)) return null
  const now = world.now()
  const store = await readStore(world.db, reader.cafeId, now, [`ingredient:${row.ingredientId}`])
  const part = store.get(`ingredient:${row.ingredientId}`)
  return part
    ? {
        ...packOf(row, now),
        allergens: allergensOf(
          [{ name: part.name, marks: part.allergens, labelRead: part.labelRead }],
          allergenListOf(reader.cafe),
        ),
      }
    : null
}
