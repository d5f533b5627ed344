import 'server-only'
import { findTestableRecipes } from '@/lib/db/panels'
import type { Actor, World } from '../world'

/** Recipes a panel could be planned for, with how many trials each has. */
export async function readRecipesToTest(world: World, actor: Actor) {
  const recipes = await findTestableRecipes(world.db, actor.cafeId)
  return recipes.map(({ id, name, trialCount }) => ({ id, name, trials: trialCount }))
}
