import 'server-only'
import { computeBuild, type BuildFigures, type TrialBuild } from '@/lib/drink/build'
import {
  changeSentence,
  changesBetween,
  figureRows,
  manyChangesWarning,
  type Change,
  type FigureRow,
} from '@/lib/drink/change'
import type { Figure } from '@/lib/drink/figure'
import { findMethod } from '@/lib/drink/method'
import { findNames } from '@/lib/db/people'
import { findCostLevels, findHouseRecipe, findPanelsOfRecipe, findVessels } from '@/lib/db/recipes'
import { findTrial, findTrials, findWeighings, type TrialRow } from '@/lib/db/trials'
import type { Part } from './store-part'
import { buildAsOfItsDay, readStore, trialBuild } from './trial-build'
import type { Reader } from './read-recipe'
import type { World } from './world'

export interface Comparison {
  readonly with: { readonly id: string; readonly number: number; readonly name: string }
  readonly sentence: string
  readonly warning: string | null
  readonly changes: readonly Change[]
  readonly figures: readonly FigureRow[]
}

/** What the scale showed for one line of the build. */
interface Weighed {
  readonly position: number
  readonly grams: number
}

export interface TrialSheet {
  readonly trial: TrialRow
  readonly methodWords: string
  readonly build: TrialBuild
  readonly figures: BuildFigures
  /** what a glass costs with today's prices, where that differs from the day it was frozen */
  readonly costToday: Figure | null
  readonly parent: Comparison | null
  readonly isHouse: boolean
  readonly notes: readonly { readonly id: string; readonly text: string; readonly at: Date; readonly by: string }[]
  /** the newest twenty times somebody built it beside the scale */
  readonly weighings: readonly {
    readonly id: string
    readonly at: Date
    readonly glasses: number
    readonly weights: readonly Weighed[]
  }[]
  readonly panels: readonly { readonly id: string; readonly title: string; readonly stage: string }[]
  readonly others: readonly { readonly id: string; readonly number: number; readonly name: string }[]
}

export async function readTrial(world: World, reader: Reader, trialId: string): Promise<TrialSheet | null> {
  const trial = await findTrial(world.db, reader.cafeId, trialId)
  if (!trial) return null
  const [store, siblings, panels, house, weighings, names] = await Promise.all([
    readStore(world.db, reader.cafeId, reader.cafe),
    findTrials(world.db, reader.cafeId, trial.recipeId),
    findPanelsOfRecipe(world.db, reader.cafeId, trial.recipeId),
    findHouseRecipe(world.db, reader.cafeId, trial.recipeId),
    findWeighings(world.db, reader.cafeId, trialId),
    findNames(
      world.db,
      trial.notes.flatMap((note) => (note.authorId ? [note.authorId] : [])),
    ),
  ])
  const build = buildAsOfItsDay(trial, store, reader.cafe)
  const figures = computeBuild(build)
  const today = trial.frozenSheet === null ? null : computeBuild(trialBuild(trial, store, reader.cafe)).cost.perGlass
  const parent = siblings.find((other) => other.id === trial.parentId)
  return {
    trial,
    methodWords: findMethod(trial.method)?.words ?? trial.method,
    build,
    figures,
    costToday: today && !sameFigure(today, figures.cost.perGlass) ? today : null,
    parent: parent ? compare(parent, buildAsOfItsDay(parent, store, reader.cafe), build) : null,
    isHouse: house?.trialId === trial.id,
    notes: trial.notes.map(({ id, text, at, authorId }) => ({
      id,
      text,
      at,
      by: authorId ? (names.get(authorId) ?? 'somebody') : 'the house',
    })),
    weighings: weighings.map(({ id, at, glasses, weights }) => ({
      id,
      at,
      glasses,
      weights: JSON.parse(weights) as Weighed[],
    })),
    panels: panels.filter((panel) => panel.cups.some((cup) => cup.trialId === trial.id)),
    others: siblings.filter((other) => other.id !== trial.id).map(({ id, number, name }) => ({ id, number, name })),
  }
}

const sameFigure = (a: Figure, b: Figure) =>
  a.known === b.known && (!a.known || !b.known || Math.abs(a.value - b.value) < 1e-9)

/** How does one trial differ from another, whichever two? */
export async function readComparison(
  world: World,
  reader: Reader,
  beforeId: string,
  afterId: string,
): Promise<(Comparison & { readonly after: TrialRow }) | null> {
  const before = await findTrial(world.db, reader.cafeId, beforeId)
  const after = await findTrial(world.db, reader.cafeId, afterId)
  if (!before || !after) return null
  const store = await readStore(world.db, reader.cafeId, reader.cafe)
  return {
    ...compare(before, buildAsOfItsDay(before, store, reader.cafe), buildAsOfItsDay(after, store, reader.cafe)),
    after,
  }
}

function compare(before: TrialRow, beforeBuild: TrialBuild, afterBuild: TrialBuild): Comparison {
  const changes = changesBetween(beforeBuild, afterBuild)
  return {
    with: { id: before.id, number: before.number, name: before.name },
    sentence: changeSentence(afterBuild.name, before.name, changes),
    warning: manyChangesWarning(changes),
    changes,
    figures: figureRows(computeBuild(beforeBuild), computeBuild(afterBuild)),
  }
}

/** What the sheet of a trial offers while it is typed: parts, vessels, levels, money. */
export async function readSheetOffer(world: World, reader: Reader, recipeId: string) {
  const [store, vessels, levels] = await Promise.all([
    readStore(world.db, reader.cafeId, reader.cafe),
    findVessels(world.db, reader.cafeId),
    findCostLevels(world.db, reader.cafeId, recipeId),
  ])
  const parts: Part[] = [...store.values()].filter((part) => !part.archived)
  return {
    parts,
    vessels: vessels
      .filter((vessel) => !vessel.archivedAt)
      .map((vessel) => ({
        id: vessel.id,
        name: vessel.name,
        brimMl: vessel.brimUl / 1000,
        fillMl: vessel.fillUl === null ? null : vessel.fillUl / 1000,
        packMinor: vessel.packMinor ?? 0,
      })),
    levels: levels.map(({ id, name }) => ({ id, name })),
  }
}

export type SheetOffer = Awaited<ReturnType<typeof readSheetOffer>>
