import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findPreparations } from '@/lib/db/preparations'
import { findCountedIngredients } from '@/lib/db/shelf'
import { preparationsWithin } from '@/lib/drink/nesting'
import type { BuildLine } from '@/lib/drink/trial'
import { printCount, readShelfField, type ShelfField } from '@/lib/forms/on-shelf-form'
import { fromFormulas } from '../trial/from-formula'
import type { There } from '../trial/read-make'
import { readTrial } from '../trial/read-trial'
import type { Reader, World } from '../world'
import { readShelf } from './shelf'

/** What somebody counted of one thing, and how long ago. */
export interface Counted {
  readonly grams: number
  readonly at: Date
  /** nights since, of the café's calendar: 0 is today */
  readonly nights: number
}

/** One thing on the shelf: a batch in date, or something bought. How much is left only somebody with a scale can say. */
export type OnShelf = ShelfField & {
  readonly kind: 'batch' | 'ingredient'
  readonly id: string
  readonly name: string
  /** of the batch; null for what is bought */
  readonly number: number | null
  /** what was kept last; null where nobody ever said */
  readonly counted: Counted | null
}

type Query = Readonly<Record<string, string | undefined>>

/**
 * What that this trial is made of is on the shelf, and what is left of it? A count of today stands in its field until
 * something was worked out; an older one is only told, since glasses were sold meanwhile, and counts for nothing.
 *
 * @param query  grams typed on the page, by field
 * @returns      batches in date in working order, what must go first in front; then what is bought, but no water and no ice
 */
export async function readOnShelf(
  world: World,
  reader: Reader,
  trialId: string,
  query: Query,
): Promise<readonly OnShelf[]> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return []
  const { timeZone } = await requireCafe(world.db, reader.cafeId)
  const now = world.now()
  const asked = query['amount'] !== undefined
  const { lines } = (await fromFormulas(world.db, reader.cafeId, now, sheet.poured, sheet.todays)).build
  const inside = preparationsWithin(lines)
  const rows = [
    ...(await batchesOf(world, reader, [...new Set(inside.map(({ name }) => name))])),
    ...(await boughtIn(world, reader, [...lines, ...inside.flatMap(({ inputs }) => inputs)])),
  ]
  return rows.map(({ shelfMg, shelfAt, ...row }) => {
    const nights = shelfAt && (Date.parse(dayIn(now, timeZone)) - Date.parse(dayIn(shelfAt, timeZone))) / DAY
    const counted =
      shelfMg === null || shelfAt === null || nights === null ? null : { grams: shelfMg / 1000, at: shelfAt, nights }
    const field = readShelfField(row.id, query)
    const offers = !asked && query[field.field] === undefined && counted?.nights === 0
    return { ...row, ...field, counted, ...(offers && { typed: printCount(counted.grams) }) }
  })
}

const DAY = 86_400_000

async function batchesOf(world: World, reader: Reader, names: readonly string[]) {
  if (names.length === 0) return []
  const now = world.now()
  const rows = (await findPreparations(world.db, reader.cafeId)).filter(({ name }) => names.includes(name))
  const shelf = await readShelf(
    world.db,
    reader.cafeId,
    rows.map(({ id }) => id),
  )
  const inDate = shelf.filter(({ discardAt }) => discardAt === null || discardAt > now)
  return names.flatMap((name) =>
    inDate
      .filter((batch) => batch.name === name)
      .map(({ id, number, shelfMg, shelfAt }) => ({ kind: 'batch' as const, id, name, number, shelfMg, shelfAt })),
  )
}

async function boughtIn(world: World, reader: Reader, lines: readonly BuildLine[]) {
  const bought = lines.filter(({ preparation, kind }) => !preparation && kind !== 'water' && kind !== 'ice')
  const names = [...new Set(bought.map(({ name }) => name))]
  const rows = await findCountedIngredients(world.db, reader.cafeId, names)
  return names.flatMap((name) =>
    rows
      .filter((row) => row.name === name)
      .map((row) => ({ ...row, kind: 'ingredient' as const, number: null as number | null })),
  )
}

/** What is there, in g by name: what nobody weighed does not count. */
export function gramsOnShelf(shelf: readonly OnShelf[]): There {
  const together = (kind: OnShelf['kind']) => {
    const byName = new Map<string, number>()
    for (const one of shelf)
      if (one.kind === kind && one.grams !== null) byName.set(one.name, (byName.get(one.name) ?? 0) + one.grams)
    return byName
  }
  return { made: together('batch'), bought: together('ingredient') }
}
