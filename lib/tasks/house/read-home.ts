import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findDiskState, type DiskState } from '@/lib/db/engine/disk'
import { findHouseRecipes, type HouseRecipeRow } from '@/lib/db/house-recipe'
import { findPanels, type PanelRow } from '@/lib/db/panels'
import { findNameDays } from '@/lib/db/privacy'
import { findPricesOn } from '@/lib/db/prices'
import { findTrialContents } from '@/lib/db/trial-contents'
import { findRecipeList } from '@/lib/db/recipes'
import { findNames } from '@/lib/db/people'
import { findLatestDecisions } from '@/lib/db/results'
import { findPriceChangesToldSince } from '@/lib/db/upstream-changes'
import { readEvidence, type DecisionEvidence } from '../result/decision-evidence'
import { readChanges, type ChangedIngredient } from '../recipe/read-changes'
import type { Actor, Reader, World } from '../world'

/** A decision with what was on the table that day. */
export type DecidedLately = Omit<Awaited<ReturnType<typeof findLatestDecisions>>[number], 'evidence'> & {
  readonly evidence: DecisionEvidence | null
  readonly by: string
}

/** What needs somebody now, and what happened last. */
export interface Home {
  /** null while there is room on the disk */
  readonly disk: DiskState | null
  readonly open: readonly PanelRow[]
  readonly undecided: readonly PanelRow[]
  readonly drafts: readonly PanelRow[]
  readonly decided: readonly DecidedLately[]
  /** what changed in the store and nobody has looked at; its glasses are those of house recipes */
  readonly changes: readonly ChangedIngredient[]
  /** house recipes in which an ingredient's price has changed since they were adopted, without a change that was told of */
  readonly repriced: readonly (HouseRecipeRow & { readonly ingredients: readonly string[] })[]
  readonly recipes: number
  /** nobody has said how long names of tasters are kept */
  readonly namesUnsettled: boolean
}

const shown = 5

export async function readHome(world: World, actor: Reader, reads: boolean): Promise<Home> {
  const panels = (stage: string) => findPanels(world.db, actor.cafeId, stage, shown)
  const [open, disk, nameDays] = await Promise.all([
    panels('open'),
    findDiskState(world.db),
    findNameDays(world.db, actor.cafeId),
  ])
  const namesUnsettled = nameDays === null
  if (!reads)
    return { disk, open, undecided: [], drafts: [], decided: [], changes: [], repriced: [], recipes: 0, namesUnsettled }
  const [undecided, drafts, decided, changes, repriced, recipes] = await Promise.all([
    panels('closed'),
    panels('draft'),
    findDecidedLately(world, actor),
    readChanges(world, actor, 'house'),
    findRepriced(world, actor),
    findRecipeList(world.db, actor.cafeId),
  ])
  return { disk, open, undecided, drafts, decided, changes, repriced, recipes: recipes.length, namesUnsettled }
}

async function findDecidedLately(world: World, actor: Actor): Promise<Home['decided']> {
  const found = await findLatestDecisions(world.db, actor.cafeId, shown)
  const names = await findNames(
    world.db,
    found.flatMap(({ byId }) => (byId ? [byId] : [])),
  )
  return found.map((one) => ({
    ...one,
    evidence: readEvidence(one.evidence),
    by: one.byId ? (names.get(one.byId) ?? 'somebody') : 'the house',
  }))
}

async function findRepriced(world: World, actor: Actor): Promise<Home['repriced']> {
  const houses = await findHouseRecipes(world.db, actor.cafeId)
  const contents = await findTrialContents(
    world.db,
    actor.cafeId,
    houses.map((house) => house.trial.id),
  )
  const changed = await Promise.all(
    houses.map(async (house) => {
      const all = contents.get(house.trial.id)?.ingredients.map((ingredient) => ingredient.id) ?? []
      const told = await findPriceChangesToldSince(world.db, actor.cafeId, all, house.at)
      const ids = all.filter((id) => !told.has(id))
      return { ...house, ingredients: await findRepricedOf(world, actor, ids, house.at) }
    }),
  )
  return changed.filter((house) => house.ingredients.length > 0)
}

/** Names of the ingredients that cost something else today than they did, as far as one knew, at a moment. */
async function findRepricedOf(world: World, actor: Actor, ids: readonly string[], at: Date): Promise<string[]> {
  const { timeZone } = await requireCafe(world.db, actor.cafeId)
  const [then, now] = await Promise.all([
    findPricesOn(world.db, actor.cafeId, ids, dayIn(at, timeZone), at),
    findPricesOn(world.db, actor.cafeId, ids, dayIn(world.now(), timeZone)),
  ])
  const saidOf = (price: (typeof now)[number]['price']) =>
    price && `${price.priceMinor} ${price.packMg} ${price.usableBp}`
  const before = new Map(then.map(({ id, price }) => [id, saidOf(price)]))
  return now.filter(({ id, price }) => before.get(id) !== saidOf(price)).map(({ name }) => name)
}
