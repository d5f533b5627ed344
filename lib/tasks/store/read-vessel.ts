import 'server-only'
import { findVessel } from '@/lib/db/vessels'
import type { Actor, World } from '../world'

export async function readVessel(world: World, actor: Actor, id: string) {
  return findVessel(world.db, actor.cafeId, id)
}
