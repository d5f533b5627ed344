import 'server-only'
import { dayAndTimeIn, dayIn } from '@/lib/base/zone-time'
import { findBatchesWithin, findNewestBatchIds } from '@/lib/db/batches'
import { requireCafe } from '@/lib/db/cafes'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findIngredients, findIngredientsById, type IngredientRow } from '@/lib/db/ingredients'
import { findPreparations } from '@/lib/db/preparations'
import type { TrialRow } from '@/lib/db/trials'
import { discardDates } from './in-date'
import { findPours } from './pours'
import { withPreparations } from './preparation-part'
import { storeOf, type Store, type StorePart, refOf } from './store-part'

/**
 * Every part that these trials name, on their lines and for whatever cost level; of a preparation that is named, the batch
 * it was written with or poured from too.
 */
export function partsNamedIn(trials: readonly Pick<TrialRow, 'lines'>[]): string[] {
  const rows = trials.flatMap(({ lines }) => lines.flatMap((line) => [line, ...line.alternatives]))
  return rows.flatMap((row) => [refOf(row), ...(row.preparationId && row.batchId ? [`batch:${row.batchId}`] : [])])
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
  const within = await findBatchesWithin(db, cafeId, [...idsOf(refs, 'batch:'), ...standing])
  const dates = await discardDates(db, cafeId, within)
  const batches = within.map((row) => ({ ...row, discardAt: dates.get(row.id) ?? null }))
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

/**
 * The same for a line of a trial, which may name a preparation: whichever batch of it goes first. Ingredients, then each
 * preparation with its single batches below.
 */
export async function readLineOffer(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  used: readonly string[] = [],
): Promise<{ readonly store: Store; readonly parts: readonly StorePart[] }> {
  const [{ store: bare, parts }, { timeZone }, all] = await Promise.all([
    readOffer(db, cafeId, now, used),
    requireCafe(db, cafeId),
    findPreparations(db, cafeId),
  ])
  const rows = all.filter(({ id, archivedAt }) => archivedAt === null || used.includes(`preparation:${id}`))
  const ids = rows.map(({ id }) => id)
  const store = withPreparations(bare, await findPours(db, cafeId, now, ids))
  const single = parts.filter(({ ref }) => ref.startsWith('batch:'))
  const named = rows.flatMap(({ id, name }) => {
    const part = store.get(`preparation:${id}`)
    const own = single
      .filter(({ preparation }) => preparation?.name === name)
      .toSorted((a, b) => Number(b.preparation?.batch) - Number(a.preparation?.batch))
    return [...(part ? [{ ...part, offeredAs: sayPour(part, timeZone) }] : []), ...own]
  })
  const other = parts.filter((part) => !named.includes(part))
  return { store, parts: [...other, ...named] }
}

/** "Cardamom syrup · the oldest batch in date (batch 3, discard 29 Nov 2026)" */
function sayPour({ name, pour, discardAt }: StorePart, timeZone: string): string {
  if (!pour?.batch) return `${pour?.name ?? name} · no batch in date`
  const until = discardAt === null ? 'date not known' : `discard ${dayAndTimeIn(discardAt, timeZone).day}`
  return `${pour.name} · the oldest batch in date (batch ${pour.batch.number}, ${until})`
}
