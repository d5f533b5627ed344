import 'server-only'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findCostLevels, findRecipe } from '@/lib/db/recipes'
import { findAlternatives, findTrials } from '@/lib/db/trials'
import { costLevels } from '@/lib/drink/cost-level'
import type { Reader } from './read-recipe'
import { lineOf } from './store-part'
import { readStore, trialBuild } from './trial-build'
import type { World } from './world'

/** One trial of a recipe costed at each of its levels, side by side, with today's prices. */
export async function readCostLevels(world: World, reader: Reader, recipeId: string, wantedTrialId: string | null) {
  const recipe = await findRecipe(world.db, reader.cafeId, recipeId)
  if (!recipe) return null
  const [levels, trials, house, store] = await Promise.all([
    findCostLevels(world.db, reader.cafeId, recipeId),
    findTrials(world.db, reader.cafeId, recipeId),
    findHouseRecipe(world.db, reader.cafeId, recipeId),
    readStore(world.db, reader.cafeId, world.now()),
  ])
  const trial =
    trials.find((one) => one.id === wantedTrialId) ??
    trials.find((one) => one.id === house?.trialId) ??
    trials.at(-1) ??
    null
  const alternatives = trial ? await findAlternatives(world.db, reader.cafeId, trial.id) : []
  const refOf = (row: (typeof alternatives)[number]) =>
    row.ingredientId ? `ingredient:${row.ingredientId}` : `batch:${row.batchId}`
  const costed = trial
    ? costLevels(
        trialBuild(trial, store, reader.cafe),
        levels.map((level) => ({
          name: level.name,
          tasted: trial.costLevelId === level.id,
          alternatives: new Map(
            alternatives
              .filter((row) => row.costLevelId === level.id)
              .flatMap((row) => {
                const part = store.get(refOf(row))
                const key = String(row.line.position)
                return part ? [[key, lineOf(part, { key, role: part.kind, targetGrams: 1 })] as const] : []
              }),
          ),
        })),
      )
    : []
  return {
    recipe,
    trial,
    trials: trials.map(({ id, number, name }) => ({ id, number, name })),
    levels: levels.map((level, place) => ({ id: level.id, ...costed[place], name: level.name })),
    chosen: new Map(alternatives.map((row) => [`${row.costLevelId} ${row.lineId}`, refOf(row)])),
    parts: [...store.values()].filter((part) => !part.archived).map(({ ref, name, kind }) => ({ ref, name, kind })),
    lineNames: trial ? trialBuild(trial, store, reader.cafe).lines.map(({ name, kind }) => ({ name, kind })) : [],
  }
}

export type LevelSheet = NonNullable<Awaited<ReturnType<typeof readCostLevels>>>
