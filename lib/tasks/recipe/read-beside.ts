import 'server-only'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findRecipe } from '@/lib/db/recipes'
import { findTrialNames, findTrialsById, type TrialRow } from '@/lib/db/trials'
import { brewsOf, cautionsBeside, partsBeside, type BesideBrew } from '@/lib/drink/beside'
import { computeBuild } from '@/lib/drink/build'
import { glassLayers, type GlassLayers } from '@/lib/drink/layers'
import { findMethod } from '@/lib/drink/method'
import type { BuildFigures, TrialBuild } from '@/lib/drink/trial'
import { findBlindLiking, type BlindLiking } from '../result/blind-liking'
import { labelsOf, type GlassLabels } from '../result/read-result-glasses'
import { findHomeWords, type HomeWords } from '../store/home-words'
import { partsNamedIn, readStore } from '../store/reach-store'
import { buildAsOfItsDay, frozenWith } from '../trial/frozen-build'
import type { Reader, World } from '../world'

/** As many as a page, or a sheet of paper, holds beside one another. */
const LEAST = 2
const MOST = 6

/** One trial as it stands beside others. */
export interface BesideTrial {
  readonly id: string
  readonly number: number
  readonly name: string
  readonly method: string
  readonly level: string | null
  readonly vessel: string | null
  readonly isHouse: boolean
  /** the day whose prices the cost is of; null: of today */
  readonly pricesOf: Date | null
  readonly brews: readonly BesideBrew[]
  readonly glass: GlassLayers
  /** of its day where it is frozen, of today where it is a draft */
  readonly figures: BuildFigures
  /** what labels say today */
  readonly labels: GlassLabels
  readonly liking: BlindLiking
  /** household measures of its lines, by key; none where they were not asked for */
  readonly home: HomeWords
}

/** Why none stand beside one another. */
export type BesideRefusal = 'too-few' | 'too-many'

/**
 * Two to six trials of one recipe beside one another.
 *
 * @param wanted  ids in the order they are to stand; one that is no trial of this recipe is left out, and counted
 * @param athome  whether household measures stand beside the grams
 * @returns       null where the recipe is not there; `refused` and no trials where too few or too many are named
 */
export async function readBeside(
  world: World,
  reader: Reader,
  recipeId: string,
  wanted: readonly string[],
  athome: boolean,
) {
  const { db } = world
  const { cafeId } = reader
  const recipe = await findRecipe(db, cafeId, recipeId)
  if (!recipe) return null
  const offered = await findTrialNames(db, cafeId, recipeId)
  const asked = [...new Set(wanted)]
  const named = asked.filter((id) => offered.some((one) => one.id === id))
  const refused: BesideRefusal | null = named.length < LEAST ? 'too-few' : named.length > MOST ? 'too-many' : null
  const chosen = refused === null ? named : []
  const rows = await findTrialsById(db, cafeId, chosen)
  const trials = chosen.flatMap((id) => rows.find((row) => row.id === id) ?? [])
  const [store, house, liking] = await Promise.all([
    readStore(db, cafeId, world.now(), partsNamedIn(trials)),
    findHouseRecipe(db, cafeId, recipeId),
    findBlindLiking(world, cafeId, chosen),
  ])
  const built = trials.map((trial) => ({ trial, build: buildAsOfItsDay(trial, store, reader.cafe) }))
  const home = athome
    ? await findHomeWords(
        db,
        cafeId,
        built.map(({ build }) => build),
      )
    : []
  const sides = built.map(({ trial, build }, place): BesideTrial => ({
    ...sideOf(trial, build),
    isHouse: house?.trialId === trial.id,
    liking: liking.get(trial.id) ?? { said: 'not-tasted' },
    home: home[place] ?? new Map(),
  }))
  return {
    recipe: { id: recipe.id, name: recipe.name },
    offered,
    /** what was ticked and is there */
    named,
    gone: asked.length - named.length,
    refused,
    trials: sides,
    parts: partsBeside(built.map(({ build }) => build)),
    cautions: cautionsBeside(sides.map(({ figures }) => figures)),
    reach: Math.max(1, ...sides.map(({ glass }) => Math.max(glass.brim ?? 0, glass.fill ?? 0, glass.top))),
  }
}

function sideOf(trial: TrialRow, build: TrialBuild): Omit<BesideTrial, 'isHouse' | 'liking' | 'home'> {
  const kept = frozenWith(trial)
  const figures = { ...computeBuild(build), ...kept?.figures }
  const { id, number, name } = trial
  return {
    id,
    number,
    name,
    method: findMethod(trial.method)?.words ?? trial.method,
    level: build.level,
    vessel: build.vessel?.name ?? null,
    pricesOf: kept && trial.frozenAt,
    brews: brewsOf(build),
    glass: glassLayers(build, figures),
    figures,
    labels: labelsOf(figures.allergens),
  }
}
