import 'server-only'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findRecipe } from '@/lib/db/recipes'
import { findCostLevels } from '@/lib/db/cost-levels'
import { findTrial, findTrialNames } from '@/lib/db/trials'
import { costLevels } from '@/lib/drink/cost-level'
import { levelOfItsDay } from '../trial/frozen-build'
import { alternativesMark } from '../opened-with'
import { partsNamedIn, readLineOffer } from '../store/reach-store'
import { alternativesOf, sheetBuild } from '../trial/trial-build'
import { refOf } from '../store/store-part'
import type { World, Reader } from '../world'

/** One trial of a recipe costed at each of its levels, side by side, with today's prices. */
export async function readCostLevels(world: World, reader: Reader, recipeId: string, wantedTrialId: string | null) {
  const recipe = await findRecipe(world.db, reader.cafeId, recipeId)
  if (!recipe) return null
  const [levels, trials, house] = await Promise.all([
    findCostLevels(world.db, reader.cafeId, recipeId),
    findTrialNames(world.db, reader.cafeId, recipeId),
    findHouseRecipe(world.db, reader.cafeId, recipeId),
  ])
  const chosen =
    trials.find((one) => one.id === wantedTrialId) ?? trials.find((one) => one.id === house?.trialId) ?? trials.at(-1)
  const trial = chosen ? await findTrial(world.db, reader.cafeId, chosen.id) : null
  // What was put aside since stays on offer where it is used, or saving would lose it without a word.
  const { store, parts } = await readLineOffer(world.db, reader.cafeId, world.now(), trial ? partsNamedIn([trial]) : [])
  const named = trial && sheetBuild(trial, store, reader.cafe)
  const alternatives = trial ? alternativesOf(trial, store) : []
  const costed =
    trial && named
      ? costLevels(
          named,
          levels.map(({ id, name }) => ({
            name,
            tasted: trial.costLevelId === id,
            alternatives: new Map(
              alternatives.filter(({ level }) => level.id === id).map(({ key, line }) => [key, line]),
            ),
          })),
        )
      : []
  return {
    recipe,
    trial,
    /** the level this trial was poured at, which is settled */
    settled: trial && levelOfItsDay(trial),
    trials,
    levels: levels.map((level, place) => ({
      id: level.id,
      ...costed[place],
      name: level.name,
      mark: trial ? alternativesMark(trial, level.id) : '',
    })),
    chosen: new Map(
      trial?.lines.flatMap((line) => line.alternatives.map((row) => [`${row.costLevelId} ${line.id}`, refOf(row)])),
    ),
    parts: parts.map(({ ref, name, offeredAs, kind }) => ({ ref, name: offeredAs ?? name, kind })),
    lineNames: named?.lines.map(({ name, kind }) => ({ name, kind })) ?? [],
  }
}

export type LevelSheet = NonNullable<Awaited<ReturnType<typeof readCostLevels>>>
