import 'server-only'
import { findCostLevels, findVessels } from '@/lib/db/recipes'
import type { Reader } from './read-recipe'
import type { StorePart } from './store-part'
import { readStore } from './trial-build'
import type { World } from './world'

/** What the sheet of a trial offers while it is typed: parts, vessels, levels, money. */
export async function readSheetOffer(world: World, reader: Reader, recipeId: string) {
  const [store, vessels, levels] = await Promise.all([
    readStore(world.db, reader.cafeId, world.now()),
    findVessels(world.db, reader.cafeId),
    findCostLevels(world.db, reader.cafeId, recipeId),
  ])
  const parts: StorePart[] = [...store.values()].filter((part) => !part.archived)
  return {
    parts,
    vessels: vessels
      .filter((vessel) => !vessel.archivedAt)
      .map((vessel) => ({
        id: vessel.id,
        name: vessel.name,
        brimMl: vessel.brimUl / 1000,
        fillMl: vessel.fillUl === null ? null : vessel.fillUl / 1000,
        packMinor: vessel.packMinor ?? 0,
      })),
    levels: levels.map(({ id, name }) => ({ id, name })),
  }
}

export type SheetOffer = Awaited<ReturnType<typeof readSheetOffer>>
