import 'server-only'
import { theHomeBrakes } from '@/lib/auth/home-brake'
import type { World } from '../world'

/** Counts that somebody looks at a link, or tries whether there is one. @returns seconds to wait; 0: go on */
export function mayLook(world: World, asker: string | null): number {
  return asker === null ? 0 : theHomeBrakes.looks.take(asker, world.now())
}
