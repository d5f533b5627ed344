import 'server-only'
import { changeLine, changesBetween } from '@/lib/drink/change'
import { findMethod } from '@/lib/drink/method'
import { findCostLevels } from '@/lib/db/cost-levels'
import { findNames } from '@/lib/db/people'
import {
  countPanels,
  findAdoption,
  findDecisions,
  findPanelsOfRecipe,
  findRecipe,
  findRecipeList,
  type DecisionRow,
} from '@/lib/db/recipes'
import { findTrials, type TrialRow } from '@/lib/db/trials'
import { readEvidence } from '../result/decision-evidence'
import { buildAsOfItsDay } from '../trial/frozen-build'
import { partsNamedIn, readStore } from '../store/reach-store'
import { methodGrid } from './method-grid'
import type { Actor, Reader, World } from '../world'

export async function readRecipes(world: World, actor: Actor) {
  const rows = await findRecipeList(world.db, actor.cafeId)
  return rows.map((row) => ({
    id: row.id,
    name: row.name,
    isDemo: row.isDemo,
    archived: row.archivedAt !== null,
    trials: row.trialCount,
    panels: row.panelCount,
    house: row.house,
  }))
}

/** One trial in the tree of a recipe: where it comes from, what changed, what became of it. */
export interface TrialBranch {
  readonly id: string
  readonly number: number
  readonly name: string
  readonly method: string
  readonly depth: number
  /** what changed from its parent, in one line; null for a trial that began on its own */
  readonly change: string | null
  readonly frozen: boolean
  readonly archived: boolean
  readonly isHouse: boolean
  /** the newest that poured it, and in how many it was poured */
  readonly panels: readonly { readonly id: string; readonly title: string; readonly stage: string }[]
  readonly panelCount: number
}

/** As many panels or decisions as a page shows at once; the rest is a page further. */
const AT_ONCE = 20
/** Panels named beside one trial. */
const NAMED = 3

/** A recipe with its trials, and its newest panels. */
export async function readRecipe(world: World, reader: Reader, recipeId: string) {
  const { db } = world
  const { cafeId } = reader
  const recipe = await findRecipe(db, cafeId, recipeId)
  if (!recipe) return null
  const trials = await findTrials(db, cafeId, recipeId)
  const [panels, counts, adopted, store, levels] = await Promise.all([
    findPanelsOfRecipe(db, cafeId, recipeId, { skip: 0, take: AT_ONCE }),
    countPanels(
      db,
      cafeId,
      recipeId,
      trials.map(({ id }) => id),
    ),
    findAdoption(db, cafeId, recipeId),
    readStore(db, cafeId, world.now(), partsNamedIn(trials)),
    findCostLevels(db, cafeId, recipeId),
  ])
  const builds = new Map(trials.map((trial) => [trial.id, buildAsOfItsDay(trial, store, reader.cafe)]))
  const changeOf = (trial: TrialRow) => {
    const before = trial.parentId ? builds.get(trial.parentId) : undefined
    const after = builds.get(trial.id)
    return before && after ? changeLine(changesBetween(before, after)) : null
  }
  const [names, grid] = await Promise.all([
    findNames(db, adopted?.byId ? [adopted.byId] : []),
    methodGrid(world, cafeId, { trials, builds, levels, houseTrialId: adopted?.trialId ?? null }),
  ])
  return {
    recipe,
    grid,
    house:
      adopted?.trial && adopted.version
        ? { ...sayDecision(adopted, names), version: adopted.version, trial: adopted.trial }
        : null,
    trials: inTreeOrder(trials).map(({ trial, depth }): TrialBranch => ({
      id: trial.id,
      number: trial.number,
      name: trial.name,
      method: findMethod(trial.method)?.words ?? trial.method,
      depth,
      change: changeOf(trial),
      frozen: trial.frozenAt !== null,
      archived: trial.archivedAt !== null,
      isHouse: adopted?.trialId === trial.id,
      panels: panels.filter((panel) => panel.cups.some((cup) => cup.trialId === trial.id)).slice(0, NAMED),
      panelCount: counts.byTrial.get(trial.id) ?? 0,
    })),
    panels,
    panelCount: counts.all,
  }
}

/**
 * What was found and decided of a recipe, page by page, newest first.
 *
 * @param page  from 1; a page that is not there is empty
 */
export async function readHistory(world: World, reader: Reader, recipeId: string, page: number) {
  const { db } = world
  const { cafeId } = reader
  const recipe = await findRecipe(db, cafeId, recipeId)
  if (!recipe) return null
  const stretch = { skip: (page - 1) * AT_ONCE, take: AT_ONCE + 1 }
  const [panels, decisions, adopted] = await Promise.all([
    findPanelsOfRecipe(db, cafeId, recipeId, stretch),
    findDecisions(db, cafeId, recipeId, stretch),
    findAdoption(db, cafeId, recipeId),
  ])
  const names = await findNames(
    db,
    [...decisions, ...(adopted ? [adopted] : [])].flatMap(({ byId }) => (byId ? [byId] : [])),
  )
  return {
    recipe,
    house: adopted?.trial ? sayDecision(adopted, names) : null,
    panels: panels.slice(0, AT_ONCE),
    decisions: decisions.slice(0, AT_ONCE).map((decision) => sayDecision(decision, names)),
    more: Math.max(panels.length, decisions.length) > AT_ONCE,
  }
}

function sayDecision(decision: DecisionRow, names: ReadonlyMap<string, string>) {
  const { id, kind, version, reason, at, trial, panel } = decision
  return {
    id,
    kind,
    version,
    reason,
    at,
    trial,
    panel,
    evidence: readEvidence(decision.evidence),
    by: decision.byId ? (names.get(decision.byId) ?? 'somebody') : 'the house',
  }
}

/** Parents before children, children in the order they were made. */
function inTreeOrder(trials: readonly TrialRow[]): { trial: TrialRow; depth: number }[] {
  const here = new Set(trials.map((trial) => trial.id))
  const childrenOf = (parentId: string | null) =>
    trials.filter((trial) => (trial.parentId && here.has(trial.parentId) ? trial.parentId : null) === parentId)
  const walk = (parentId: string | null, depth: number): { trial: TrialRow; depth: number }[] =>
    childrenOf(parentId).flatMap((trial) => [{ trial, depth }, ...walk(trial.id, depth + 1)])
  return walk(null, 0)
}
