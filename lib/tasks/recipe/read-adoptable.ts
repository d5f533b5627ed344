import 'server-only'
import { findRecipe } from '@/lib/db/recipes'
import { findTrials } from '@/lib/db/trials'
import { partsNamedIn, readStore } from '../store/reach-store'
import { toMendOf } from '../trial/to-mend'
import type { World, Reader } from '../world'

/** The trials of a recipe that may become its house recipe, each with what keeps it from being frozen. */
export async function readAdoptable(world: World, reader: Reader, recipeId: string) {
  const recipe = await findRecipe(world.db, reader.cafeId, recipeId)
  if (!recipe) return null
  const trials = await findTrials(world.db, reader.cafeId, recipeId)
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(trials))
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
