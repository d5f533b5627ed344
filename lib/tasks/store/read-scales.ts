import 'server-only'
import { findHouseScales, type HouseScales } from '@/lib/db/cafes'
import type { Actor, World } from '../world'

/** What the house weighs on, as far as it was said. */
export async function readScales(world: World, actor: Actor): Promise<HouseScales> {
  return findHouseScales(world.db, actor.cafeId)
}
