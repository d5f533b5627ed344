import 'server-only'
import { findRecipe } from '@/lib/db/recipes'
import { findTrials } from '@/lib/db/trials'
import type { Reader } from './read-recipe'
import { toMendOf } from './to-mend'
import { readStore } from './trial-build'
import type { World } from './world'

/** The trials of a recipe that may become its house recipe, each with what keeps it from being frozen. */
export async function readAdoptable(world: World, reader: Reader, recipeId: string) {
  const recipe = await findRecipe(world.db, reader.cafeId, recipeId)
  if (!recipe) return null
  const [trials, store] = await Promise.all([
    findTrials(world.db, reader.cafeId, recipeId),
    readStore(world.db, reader.cafeId, world.now()),
  ])
  return {
    recipe: { id: recipe.id, name: recipe.name },
    trials: trials
      .filter((trial) => trial.archivedAt === null)
      .map((trial) => ({
        id: trial.id,
        number: trial.number,
        name: trial.name,
        toMend: toMendOf(trial, store, reader.cafe),
      })),
  }
}
