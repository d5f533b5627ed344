import 'server-only'
import { computeBuild } from '@/lib/drink/build'
import { glassLayers, type GlassLayers } from '@/lib/drink/layers'
import { scaleSheet, type ScaleSheet } from '@/lib/drink/scale'
import type { BuildFigures, TrialBuild } from '@/lib/drink/trial'
import { AS_ON_SHEET, type ForToday } from '@/lib/drink/for-today'
import { mendedFigures, type FigureRow } from '@/lib/drink/change'
import type { Figure } from '@/lib/drink/figure'
import { findMethod } from '@/lib/drink/method'
import { findNames } from '@/lib/db/people'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findPanelsOfTrial } from '@/lib/db/recipes'
import { findTrial, findTrialNames, findWeighings, type TrialRow } from '@/lib/db/trials'
import { compareTrials, type Comparison } from './compare-trials'
import { findScales } from '../store/house-scales'
import { forToday } from './for-today'
import { buildAsOfItsDay, frozenWith } from './frozen-build'
import type { FrozenSheet } from '@/lib/forms/frozen-sheet'
import type { DraftAlternative } from '@/lib/forms/trial-draft'
import { type Store, refOf } from '../store/store-part'
import { pastBatches, undatedBatches, type PastBatch } from '../store/past-batches'
import { partsNamedIn, readStore } from '../store/reach-store'
import { pouredToday, todaysBatches, type TodaysBatch } from './todays-batches'
import { trialBuild } from './trial-build'
import type { World, Reader } from '../world'

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
  /** how high each part of one glass stands, from the figures shown */
  readonly glass: GlassLayers
  /** how one glass is weighed, in the order of its lines */
  readonly scale: ScaleSheet
  /**
   * Which day the figures are of: a draft's of today; a frozen trial's as they were worked out when it froze. One that froze
   * before figures were kept has them worked out today from the sheet of its day; one whose sheet is lost, from today's store.
   */
  readonly figuresOf: 'today' | 'its day' | 'its day, worked out today' | 'today, its sheet is lost'
  /** figures that the sheet of its day gives today, where they are not those of its day: a formula was mended since */
  readonly mended: readonly FigureRow[]
  /** what a glass costs with today's prices, where that differs from the day it was frozen */
  readonly costToday: Figure | null
  /** what a cost level uses instead, by what the line is made of */
  readonly alternatives: readonly DraftAlternative[]
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
  /** of each line that names a preparation: the batch that stands for it today */
  readonly todays: readonly TodaysBatch[]
  /** what these change beside the scale, and the pumps on the bottles */
  readonly forToday: ForToday
  /** the build with these in it: what is weighed out for many glasses */
  readonly poured: TrialBuild
  /** batches on its sheet that are past their date today */
  readonly past: readonly PastBatch[]
  /** batches that its sheet names by number and that carry no date */
  readonly undated: readonly string[]
  readonly others: readonly { readonly id: string; readonly number: number; readonly name: string }[]
}

/** Panels named beside a trial, the newest. */
const PANELS_NAMED = 20

export async function readTrial(world: World, reader: Reader, trialId: string): Promise<TrialSheet | null> {
  const trial = await findTrial(world.db, reader.cafeId, trialId)
  if (!trial) return null
  const parent = trial.parentId ? await findTrial(world.db, reader.cafeId, trial.parentId) : null
  const [store, siblings, panels, house, weighings, names, scales] = await Promise.all([
    readStore(world.db, reader.cafeId, world.now(), partsNamedIn(parent ? [trial, parent] : [trial])),
    findTrialNames(world.db, reader.cafeId, trial.recipeId),
    findPanelsOfTrial(world.db, reader.cafeId, trialId, PANELS_NAMED),
    findHouseRecipe(world.db, reader.cafeId, trial.recipeId),
    findWeighings(world.db, reader.cafeId, trialId),
    findNames(
      world.db,
      trial.notes.flatMap((note) => (note.authorId ? [note.authorId] : [])),
    ),
    findScales(world.db, reader.cafeId),
  ])
  const build = buildAsOfItsDay(trial, store, reader.cafe)
  const worked = computeBuild(build)
  const kept = frozenWith(trial)
  const figures = { ...worked, ...kept?.figures }
  const todays = todaysBatches(trial, store)
  const costToday =
    trial.frozenSheet === null ? null : computeBuild(trialBuild(trial, store, reader.cafe)).cost.perGlass
  const today = forToday(trial, store, scales)
  return {
    trial,
    methodWords: findMethod(trial.method)?.words ?? trial.method,
    build,
    figures,
    glass: glassLayers(build, figures),
    scale: scaleSheet(build, 1, { ...AS_ON_SHEET, scales }),
    figuresOf: figuresOf(trial, kept),
    mended: mendedFigures(figures, worked),
    costToday: costToday && !sameFigure(costToday, figures.cost.perGlass) ? costToday : null,
    alternatives: draftAlternatives(trial, store),
    parent: parent ? compareTrials(parent, buildAsOfItsDay(parent, store, reader.cafe), build) : null,
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
    panels,
    todays,
    forToday: today,
    poured: pouredToday(build, todays, store),
    past: pastBatches(store, trial.lines.map(refOf), world.now()),
    undated: undatedBatches(store, trial.lines.map(refOf)),
    others: siblings.filter((other) => other.id !== trial.id),
  }
}

function draftAlternatives({ lines }: TrialRow, store: Store): DraftAlternative[] {
  return lines.flatMap((line, place) => {
    const part = refOf(line)
    const before = lines.slice(0, place).filter((one) => refOf(one) === part).length
    return line.alternatives.flatMap((row) => {
      const other = store.get(refOf(row))
      return other && other.ref !== part ? [{ part, before, level: row.costLevel, other }] : []
    })
  })
}

function figuresOf(trial: TrialRow, kept: FrozenSheet | null): TrialSheet['figuresOf'] {
  if (trial.frozenAt === null) return 'today'
  if (!kept) return 'today, its sheet is lost'
  return kept.figures ? 'its day' : 'its day, worked out today'
}

const sameFigure = (a: Figure, b: Figure) =>
  a.unit === b.unit && a.known === b.known && (!a.known || !b.known || Math.abs(a.value - b.value) < 1e-9)
