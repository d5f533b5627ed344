import 'server-only'
import { requireCafe } from '@/lib/db/cafes'
import { findHouseRecipes } from '@/lib/db/house-recipe'
import { findNames } from '@/lib/db/people'
import { findTrialsById, type TrialRow } from '@/lib/db/trials'
import { findTrialsHolding, takenInstead } from '@/lib/db/trials-holding'
import { findLookedChanges, findOpenChanges, type UpstreamChangeRow } from '@/lib/db/upstream-changes'
import { graverThan, type AllergenRow } from '@/lib/drink/allergen'
import { computeBuild } from '@/lib/drink/build'
import type { Figure } from '@/lib/drink/figure'
import { trialBuild } from '../trial/trial-build'
import type { Reader, World } from '../world'
import { asItWas } from '../store/as-it-was'
import { partsNamedIn, readStores } from '../store/reach-store'
import type { Store } from '../store/store-part'
import { isAnotherThing, nameOf, told, type ToldChange } from '../store/said-change'

/** Two states of one thing, of before the change and of now. */
interface Moved<State> {
  readonly before: State
  readonly now: State
}

/** One glass that holds a changed ingredient: what the change does to it, at today's prices of all else. */
export interface TouchedGlass {
  readonly recipe: { readonly id: string; readonly name: string }
  readonly trial: { readonly id: string; readonly number: number; readonly name: string }
  readonly standing: 'house' | 'draft' | 'frozen'
  readonly cost: Moved<Figure>
  /** what is left of the net price */
  readonly left: Moved<Figure>
  /** allergens that this glass has now, or may have, and had not */
  readonly allergens: readonly AllergenRow[]
}

/** An ingredient that changed, with every change nobody has looked at, and the glasses it is in. */
export interface ChangedIngredient {
  readonly id: string
  readonly name: string
  readonly changes: readonly ToldChange[]
  /** nobody has read its label as it is now */
  readonly unread: boolean
  /** what is in it may be another: a glass made with it is to be tasted again */
  readonly tasteAgain: boolean
  /** house recipes first, then drafts, then what was poured */
  readonly glasses: readonly TouchedGlass[]
  /** glasses that are not worked out here */
  readonly more: number
}

const most = { changes: 200, glasses: 40, looked: 20 } as const

/**
 * What changed in the store since somebody last looked, and what it does to the glasses: of recipes and trials that are not
 * put aside. What needs looking at soonest stands first: new or unread allergens, then house recipes.
 *
 * @param reach  `house`: glasses of house recipes alone, and of drafts that took it instead of something, where its label
 *               changed; for a page about other things
 */
export async function readChanges(
  world: World,
  reader: Reader,
  reach: 'all' | 'house' = 'all',
): Promise<readonly ChangedIngredient[]> {
  const rows = await findOpenChanges(world.db, reader.cafeId, most.changes)
  if (rows.length === 0) return []
  const houses = new Set((await findHouseRecipes(world.db, reader.cafeId)).map(({ trial }) => trial.id))
  const names = await namesOf(world, rows)
  const changed = await Promise.all(
    [...new Set(rows.map(({ ingredientId }) => ingredientId))].map((id) => {
      const own = rows.filter(({ ingredientId }) => ingredientId === id)
      return changedIngredient(world, reader, { id, rows: own, houses, names, reach })
    }),
  )
  return changed.toSorted((a, b) => gravity(b) - gravity(a))
}

const gravity = ({ glasses, unread, changes }: ChangedIngredient) =>
  (glasses.some(({ allergens }) => allergens.length > 0) ? 4 : 0) +
  (changes.some(({ said }) => said.what === 'label' && said.alcohol !== null) ? 4 : 0) +
  (unread && glasses.length > 0 ? 2 : 0) +
  (glasses.some(({ standing }) => standing === 'house') ? 1 : 0)

/** What was looked at last, by whom. */
export async function readLookedChanges(world: World, reader: Reader) {
  const rows = await findLookedChanges(world.db, reader.cafeId, most.looked)
  const names = await namesOf(world, rows)
  return rows.map((row) => ({
    ...told(row, names),
    ingredient: { id: row.ingredientId, name: row.ingredient.name },
    lookedAt: row.lookedAt,
    lookedBy: nameOf(row.lookedById, names),
  }))
}

const namesOf = (world: World, rows: readonly UpstreamChangeRow[]) =>
  findNames(
    world.db,
    rows.flatMap(({ byId, lookedById }) => [byId, lookedById].filter((one) => one !== null)),
  )

interface Asked {
  readonly id: string
  /** oldest first, at least one */
  readonly rows: readonly UpstreamChangeRow[]
  readonly houses: ReadonlySet<string>
  readonly names: ReadonlyMap<string, string>
  readonly reach: 'all' | 'house'
}

async function changedIngredient(world: World, reader: Reader, asked: Asked): Promise<ChangedIngredient> {
  const { id, rows, houses, names, reach } = asked
  const { currencyDigits } = await requireCafe(world.db, reader.cafeId)
  const all = await findTrialsHolding(world.db, reader.cafeId, id)
  const instead = new Set(rows.some(({ what }) => what === 'label') ? takenInstead(all).map((trial) => trial.id) : [])
  const holding = all
    .filter(({ archivedAt, recipe }) => archivedAt === null && recipe.archivedAt === null)
    .filter((trial) => reach === 'all' || houses.has(trial.id) || instead.has(trial.id))
    .map((trial) => ({ trial, standing: standingOf(trial, houses) }))
    .toSorted((a, b) => order.indexOf(a.standing) - order.indexOf(b.standing))
  const shown = holding.slice(0, most.glasses)
  const trials = await findTrialsById(
    world.db,
    reader.cafeId,
    shown.map(({ trial }) => trial.id),
  )
  const refs = [...partsNamedIn(trials), `ingredient:${id}`]
  const stores = await readStores(world.db, reader.cafeId, world.now(), refs)
  const before = stores.instead((row) => (row.id === id ? asItWas(row, rows, currencyDigits) : row))
  const byId = new Map(trials.map((trial) => [trial.id, trial]))
  return {
    id,
    name: rows[0]?.ingredient.name ?? '',
    changes: rows.map((row) => told(row, names)),
    unread: stores.now.get(`ingredient:${id}`)?.labelRead === false,
    tasteAgain: rows.some(isAnotherThing),
    glasses: shown.flatMap(({ trial, standing }) => {
      const row = byId.get(trial.id)
      return row ? [touched(row, standing, { before, now: stores.now }, reader)] : []
    }),
    more: holding.length - shown.length,
  }
}

const order = ['house', 'draft', 'frozen'] as const

function standingOf(
  trial: { readonly id: string; readonly frozenAt: Date | null },
  houses: ReadonlySet<string>,
): TouchedGlass['standing'] {
  return houses.has(trial.id) ? 'house' : trial.frozenAt === null ? 'draft' : 'frozen'
}

function touched(
  trial: TrialRow,
  standing: TouchedGlass['standing'],
  stores: Moved<Store>,
  reader: Reader,
): TouchedGlass {
  const before = computeBuild(trialBuild(trial, stores.before, reader.cafe))
  const now = computeBuild(trialBuild(trial, stores.now, reader.cafe))
  return {
    recipe: { id: trial.recipeId, name: trial.recipe.name },
    trial: { id: trial.id, number: trial.number, name: trial.name },
    standing,
    cost: { before: before.cost.perGlass, now: now.cost.perGlass },
    left: { before: before.cost.contribution, now: now.cost.contribution },
    allergens: graverThan(before.allergens, now.allergens).filter(({ state }) => state !== 'not-stated'),
  }
}
