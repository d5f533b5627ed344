import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findTrialsOfPanel, type TrialRow } from '@/lib/db/trials'
import type { AllergenMark, AllergenUnion } from '@/lib/drink/allergen'
import { computeBuild } from '@/lib/drink/build'
import type { Figure } from '@/lib/drink/figure'
import { findStage, isUnblinded } from '@/lib/panel/plan'
import { partsNamedIn, readStore } from '../store/reach-store'
import type { Store } from '../store/store-part'
import { buildAsOfItsDay } from '../trial/frozen-build'
import { batchesOnSheet, batchesPouredIn, type BatchInGlass } from './batches-in-glass'
import type { CafeMoney, Reader, World } from '../world'

/** What stands beside a trial's liking: what a glass of it costs, its sugars, and what its labels name. */
export interface ResultGlass {
  readonly trialId: string
  /** of the ingredients of the day it was frozen, waste and packaging included */
  readonly cost: Figure
  readonly sugars: Figure
  readonly labels: GlassLabels
  /** of each preparation in it, which batch was poured */
  readonly batches: readonly BatchInGlass[]
}

/** What the labels of a glass say, by the names on the café's list. What is in none of these, every label was read for and leaves out. */
export interface GlassLabels {
  readonly contains: readonly string[]
  readonly mayContain: readonly string[]
  /** a label was read, and says neither yes nor no */
  readonly notStated: readonly string[]
  /** parts whose labels nobody has read: they may hold anything */
  readonly unread: readonly string[]
}

/** The glasses of a closed panel's trials: the prices of the day they froze, today's labels. @returns null before closing */
export async function readResultGlasses(
  world: World,
  reader: Reader,
  panelId: string,
): Promise<readonly ResultGlass[] | null> {
  const panel = await findPanel(world.db, reader.cafeId, panelId)
  if (!panel || !isUnblinded(findStage(panel.stage) ?? 'draft')) return null
  const trials = await findTrialsOfPanel(world.db, reader.cafeId, panelId)
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(trials))
  const batches = await batchesPouredIn(world, reader.cafeId, panel, trials)
  return trials.map((trial) => glassOf(trial, store, reader.cafe, batches.get(trial.id)))
}

/** What a glass of this trial costs and holds. @param batches  poured into it; left out: those on the sheet of its day */
export function glassOf(
  trial: TrialRow,
  store: Store,
  cafe: CafeMoney,
  batches: readonly BatchInGlass[] = batchesOnSheet(trial),
): ResultGlass {
  const { cost, sugars, allergens } = computeBuild(buildAsOfItsDay(trial, store, cafe))
  return { trialId: trial.id, cost: cost.perGlass, sugars, labels: labelsOf(allergens), batches }
}

/** What labels say of a glass, by name. */
export function labelsOf({ rows, unread }: AllergenUnion): GlassLabels {
  const named = (mark: AllergenMark) => rows.filter(({ state }) => state === mark).map(({ name }) => name)
  return {
    contains: named('contains'),
    mayContain: named('may-contain'),
    // Beside a label that nobody read everything else is not stated: the part says it.
    notStated: unread.length > 0 ? [] : named('not-stated'),
    unread,
  }
}
