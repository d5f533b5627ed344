import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findMatSeats } from '@/lib/db/paper'
import type { Actor, World } from '../world'
import { codesOfSets } from './codes-of-sets'

/** What lies under the cups of each seat. */
export interface Mats {
  readonly title: string
  /** as tasters know it */
  readonly publicTitle: string
  readonly seats: readonly {
    readonly number: number
    /** in the order of tasting */
    readonly codes: readonly string[]
    /** the same, by what is answered together; none where each is by itself */
    readonly sets: readonly (readonly string[])[]
  }[]
}

/**
 * A mat for each tray: a circle for each cup in the order of tasting, with its code, and nothing that tells which cup is which.
 *
 * @returns null unless the panel is open
 */
export async function readMats(world: World, actor: Actor, panelId: string): Promise<Mats | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (panel?.stage !== 'open') return null
  const seats = await findMatSeats(world.db, actor.cafeId, panelId)
  return {
    title: panel.title,
    publicTitle: panel.publicTitle,
    seats: seats.map(({ number, servings }) => ({
      number,
      codes: servings.map(({ code }) => code),
      sets: codesOfSets(servings),
    })),
  }
}
