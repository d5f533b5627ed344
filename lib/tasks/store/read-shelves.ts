import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findIngredients } from '@/lib/db/ingredients'
import { findPreparations } from '@/lib/db/preparations'
import { findVessels } from '@/lib/db/vessels'
import type { World, Reader } from '../world'

/** All that stands in the store, by name; `wanted` keeps only names that hold it. */
export async function readShelves(world: World, reader: Reader, wanted: string) {
  const now = world.now()
  const { timeZone } = await requireCafe(world.db, reader.cafeId)
  const [ingredients, preparations, vessels] = await Promise.all([
    findIngredients(world.db, reader.cafeId, dayIn(now, timeZone)),
    findPreparations(world.db, reader.cafeId),
    findVessels(world.db, reader.cafeId),
  ])
  const needle = wanted.trim().toLowerCase()
  const matches = (one: { readonly name: string }) => one.name.toLowerCase().includes(needle)
  return {
    ingredients: ingredients.filter(matches).map((row) => ({
      id: row.id,
      name: row.name,
      kind: row.kind,
      archived: row.archivedAt !== null,
      isDemo: row.isDemo,
      labelRead: row.labelReadAt !== null,
      price: row.prices[0] ?? null,
    })),
    preparations: preparations.filter(matches).map((row) => ({
      id: row.id,
      name: row.name,
      kind: row.kind,
      archived: row.archivedAt !== null,
      isDemo: row.isDemo,
      batches: row.batchCount,
      latest: row.latest,
      overdue: row.latest?.discardAt ? row.latest.discardAt < now : false,
    })),
    vessels: vessels.filter(matches).map((row) => ({
      id: row.id,
      name: row.name,
      brimMl: row.brimUl / 1000,
      fillMl: row.fillUl === null ? null : row.fillUl / 1000,
      packMinor: row.packMinor,
      archived: row.archivedAt !== null,
      isDemo: row.isDemo,
    })),
  }
}

export type Shelves = Awaited<ReturnType<typeof readShelves>>
