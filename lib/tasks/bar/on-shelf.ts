import 'server-only'
import { preparationsWithin } from '@/lib/drink/nesting'
import { findPreparations } from '@/lib/db/preparations'
import { readOnShelfForm, type ShelfField } from '@/lib/forms/on-shelf-form'
import { readTrial } from '../trial/read-trial'
import type { Reader, World } from '../world'
import { readShelf } from './shelf'

/** What of a preparation is in date on the shelf; how much is left only somebody with a scale can say. */
export type OnShelf = ShelfField & {
  /** of its batches that are in date, what must go first in front */
  readonly numbers: readonly number[]
  /** g, as typed; null where nobody said */
  readonly grams: number | null
}

/**
 * Which batches that this trial is made of are in date, and what is left of them?
 *
 * @param query  grams typed on the page, by field
 * @returns      preparations of which a batch is in date, in working order
 */
export async function readOnShelf(
  world: World,
  reader: Reader,
  trialId: string,
  query: Readonly<Record<string, string | undefined>>,
): Promise<readonly OnShelf[]> {
  const sheet = await readTrial(world, reader, trialId)
  const names = [...new Set(preparationsWithin(sheet?.build.lines ?? []).map(({ name }) => name))]
  if (names.length === 0) return []
  const now = world.now()
  const rows = (await findPreparations(world.db, reader.cafeId)).filter(({ name }) => names.includes(name))
  const shelf = await readShelf(
    world.db,
    reader.cafeId,
    now,
    rows.map(({ id }) => id),
  )
  const inDate = shelf.filter(({ discardAt }) => discardAt === null || discardAt > now)
  const { fields, grams } = readOnShelfForm(names, query)
  return fields.flatMap((field) => {
    const numbers = inDate.filter(({ name }) => name === field.name).map(({ number }) => number)
    return numbers.length === 0 ? [] : [{ ...field, numbers, grams: grams.get(field.name) ?? null }]
  })
}

/** What is there, in g by name: what nobody weighed does not count. */
export function gramsOnShelf(shelf: readonly OnShelf[]): ReadonlyMap<string, number> {
  return new Map(shelf.flatMap(({ name, grams }) => (grams === null ? [] : [[name, grams] as const])))
}
