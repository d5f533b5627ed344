import 'server-only'
import { findBatchesById } from '@/lib/db/batches'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findHouseRecipes } from '@/lib/db/house-recipe'
import { findTrialContents } from '@/lib/db/trial-contents'
import { findServedTrials } from '@/lib/db/trays'
import { findHousePreparations } from './house-preparations'
import type { Actor, World } from '../world'

type Asker = Pick<Actor, 'cafeId' | 'userId'>

/** What a page is about: a trial, a batch, or a preparation with all its batches. */
export type OfPanel = { readonly trialId: string } | { readonly batchId: string } | { readonly preparationId: string }

/** What is closed to somebody, by id. */
export interface Served {
  readonly trials: ReadonlySet<string>
  readonly preparations: ReadonlySet<string>
}

/**
 * Trials of open panels whose serving list this member has opened, house recipes aside, and the preparations that go into
 * these and into no house recipe: until the panel is over, who knows the jugs is not to know what is in them.
 */
export async function findServed(db: Db | Tx, { cafeId, userId }: Asker): Promise<Served> {
  const poured = await findServedTrials(db, cafeId, userId)
  if (poured.length === 0) return { trials: new Set(), preparations: new Set() }
  const house = new Set((await findHouseRecipes(db, cafeId)).map(({ trial }) => trial.id))
  const trials = new Set(poured.filter((id) => !house.has(id)))
  const contents = await findTrialContents(db, cafeId, [...trials])
  const batchIds = [...contents.values()].flatMap((one) => one.batchIds)
  const made = (await findBatchesById(db, cafeId, batchIds)).map(({ preparationId }) => preparationId)
  const ours = await findHousePreparations(db, cafeId)
  return { trials, preparations: new Set(made.filter((id) => !ours.has(id))) }
}

/** What a thing stands in, without trials that whoever asks serves in an open panel. */
export async function usesOpenTo<Uses extends { readonly trials: readonly { readonly id: string }[] }>(
  world: World,
  asker: Asker,
  uses: Uses,
): Promise<Uses> {
  const served = await findServed(world.db, asker)
  return { ...uses, trials: uses.trials.filter(({ id }) => !served.trials.has(id)) }
}

/** Is this closed to who asks, since they serve it in an open panel? */
export async function isServed(world: World, asker: Asker, of: OfPanel): Promise<boolean> {
  const served = await findServed(world.db, asker)
  if ('trialId' in of) return served.trials.has(of.trialId)
  if ('preparationId' in of) return served.preparations.has(of.preparationId)
  if (served.preparations.size === 0) return false
  const [batch] = await findBatchesById(world.db, asker.cafeId, [of.batchId])
  return batch !== undefined && served.preparations.has(batch.preparationId)
}
