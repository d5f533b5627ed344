import 'server-only'
import { findCostLevels } from '@/lib/db/cost-levels'
import { findVessels } from '@/lib/db/vessels'
import type { TrialRow } from '@/lib/db/trials'
import { partsNamedIn, readLineOffer } from '../store/reach-store'
import type { World, Reader } from '../world'

/**
 * What the sheet of a trial offers while it is typed: parts, vessels, levels, money.
 *
 * @param used  the draft being typed, whose parts stay on offer though they are old or put aside
 */
export async function readSheetOffer(world: World, reader: Reader, recipeId: string, used: TrialRow | null = null) {
  const [{ parts }, vessels, levels] = await Promise.all([
    readLineOffer(world.db, reader.cafeId, world.now(), used ? partsNamedIn([used]) : []),
    findVessels(world.db, reader.cafeId),
    findCostLevels(world.db, reader.cafeId, recipeId),
  ])
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
        heatLeak: vessel.leakMilli === null ? null : vessel.leakMilli / 1000,
      })),
    levels: levels.map(({ id, name }) => ({ id, name })),
  }
}

export type SheetOffer = Awaited<ReturnType<typeof readSheetOffer>>
