import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { findBatchesWithin, findNewestBatchIds } from '@/lib/db/batches'
import { requireCafe } from '@/lib/db/cafes'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findIngredients, findIngredientsById, type IngredientRow } from '@/lib/db/ingredients'
import type { TrialRow } from '@/lib/db/trials'
import { findPours } from './pours'
import { withPreparations } from './preparation-part'
import { storeOf, type Store, type StorePart, refOf } from './store-part'

/** Every part that these trials name, on their lines and for whatever cost level. */
export function partsNamedIn(trials: readonly Pick<TrialRow, 'lines'>[]): string[] {
  return trials.flatMap(({ lines }) => lines.flatMap((line) => [refOf(line), ...line.alternatives.map(refOf)]))
}

/**
 * These parts with all that is in them, and the prices of the café's own day. What the café made in other years and is not
 * asked for is not read: a house makes thousands of batches.
 *
 * @param refs  "ingredient:ID", "batch:ID" or "preparation:ID"; one that is not there is not in the store either
 */
export async function readStore(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  refs: readonly (string | null | undefined)[],
): Promise<Store> {
  return (await readStores(db, cafeId, now, refs)).now
}

/**
 * The same; `instead` gives how it would stand if some ingredients were as they once were, all else as it is today.
 */
export async function readStores(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  refs: readonly (string | null | undefined)[],
): Promise<{ readonly now: Store; instead(of: (row: IngredientRow) => IngredientRow): Store }> {
  const { currencyDigits, timeZone } = await requireCafe(db, cafeId)
  const pours = await findPours(db, cafeId, now, idsOf(refs, 'preparation:'))
  const standing = pours.standing.map(({ id }) => id)
  const batches = await findBatchesWithin(db, cafeId, [...idsOf(refs, 'batch:'), ...standing])
  const poured = [...batches, ...pours.formulas].flatMap(({ inputs }) =>
    inputs.flatMap(({ ingredientId }) => ingredientId ?? []),
  )
  const ids = [...idsOf(refs, 'ingredient:'), ...poured]
  const ingredients = await findIngredientsById(db, cafeId, dayIn(now, timeZone), ids)
  const store = (rows: readonly IngredientRow[]) => withPreparations(storeOf(rows, batches, currencyDigits), pours)
  return { now: store(ingredients), instead: (of) => store(ingredients.map(of)) }
}

const idsOf = (refs: readonly (string | null | undefined)[], kind: 'batch:' | 'ingredient:' | 'preparation:') =>
  refs.flatMap((ref) => (ref?.startsWith(kind) ? [ref.slice(kind.length)] : []))

/** How many batches back of one preparation somebody may choose from; an older one stays where it is used already. */
const OFFERED_BATCHES = 10

/** All that may be chosen for a line: ingredients by name, then the newest batches. @param used  offered though it is old or put aside */
export async function readOffer(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  used: readonly string[] = [],
): Promise<{ readonly store: Store; readonly parts: readonly StorePart[] }> {
  const { currencyDigits, timeZone } = await requireCafe(db, cafeId)
  const [ingredients, newest] = await Promise.all([
    findIngredients(db, cafeId, dayIn(now, timeZone)),
    findNewestBatchIds(db, cafeId, OFFERED_BATCHES),
  ])
  const batches = await findBatchesWithin(db, cafeId, [...newest, ...idsOf(used, 'batch:')])
  const store = storeOf(ingredients, batches, currencyDigits)
  const offered = new Set([...used, ...newest.map((id) => `batch:${id}`)])
  const isOffered = (part: StorePart) => offered.has(part.ref) || (part.ref.startsWith('ingredient:') && !part.archived)
  return { store, parts: [...store.values()].filter(isOffered) }
}
