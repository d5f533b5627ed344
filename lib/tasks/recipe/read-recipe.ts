import 'server-only'
import { changeLine, changesBetween } from '@/lib/drink/change'
import { findMethod } from '@/lib/drink/method'
import { newestAdoption } from '@/lib/db/house-recipe'
import { findNames } from '@/lib/db/people'
import { findDecisions, findPanelsOfRecipe, findRecipe, findRecipeList, type DecisionRow } from '@/lib/db/recipes'
import { findTrials, type TrialRow } from '@/lib/db/trials'
import { buildAsOfItsDay } from '../trial/frozen-build'
import { partsNamedIn, readStore } from '../store/reach-store'
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
  readonly panels: readonly { readonly id: string; readonly title: string; readonly stage: string }[]
}

export async function readRecipe(world: World, reader: Reader, recipeId: string) {
  const recipe = await findRecipe(world.db, reader.cafeId, recipeId)
  if (!recipe) return null
  const [trials, decisions, panels] = await Promise.all([
    findTrials(world.db, reader.cafeId, recipeId),
    findDecisions(world.db, reader.cafeId, recipeId),
    findPanelsOfRecipe(world.db, reader.cafeId, recipeId),
  ])
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(trials))
  const adopted = newestAdoption(decisions)
  const builds = new Map(trials.map((trial) => [trial.id, buildAsOfItsDay(trial, store, reader.cafe)]))
  const changeOf = (trial: TrialRow) => {
    const before = trial.parentId ? builds.get(trial.parentId) : undefined
    const after = builds.get(trial.id)
    return before && after ? changeLine(changesBetween(before, after)) : null
  }
  const names = await findNames(
    world.db,
    decisions.flatMap((decision) => (decision.byId ? [decision.byId] : [])),
  )
  return {
    recipe,
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
      panels: panels.filter((panel) => panel.cups.some((cup) => cup.trialId === trial.id)),
    })),
    panels,
    decisions: decisions.map((decision) => sayDecision(decision, names)),
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
