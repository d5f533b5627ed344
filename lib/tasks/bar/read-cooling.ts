import 'server-only'
import { coolingOf, type Cooling } from '@/lib/drink/cooling'
import { findCooling } from '@/lib/db/cooling'
import { findNames } from '@/lib/db/people'
import { findShelf } from '@/lib/db/shelf'
import type { Reader, World } from '../world'

/** One reading as the page shows it. */
export interface ReadingLine {
  readonly id: string
  readonly celsius: number
  readonly at: Date
  readonly by: string | null
  readonly isStruck: boolean
}

/** How a batch cools. */
export interface CoolingLog {
  readonly batchId: string
  readonly cooling: Cooling
  readonly readings: readonly ReadingLine[]
}

/** Where the cooling of each of these batches stands, in the order asked. */
export async function readCooling(
  world: World,
  reader: Pick<Reader, 'cafeId'>,
  batchIds: readonly string[],
): Promise<readonly CoolingLog[]> {
  const rows = await findCooling(world.db, reader.cafeId, batchIds)
  const names = await findNames(
    world.db,
    rows.flatMap(({ byId }) => byId ?? []),
  )
  return batchIds.map((batchId) => {
    const readings = rows
      .filter((row) => row.batchId === batchId)
      .map((row) => ({
        id: row.id,
        celsius: row.deciC / 10,
        at: row.at,
        by: row.byId === null ? null : (names.get(row.byId) ?? 'somebody'),
        isStruck: row.struckAt !== null,
      }))
    const counting = readings.filter(({ isStruck }) => !isStruck)
    return { batchId, cooling: coolingOf(counting, world.now()), readings }
  })
}

/** A batch that cools on the shelf, by its number. */
export type CoolingBatch = CoolingLog & { readonly number: number }

/** Longer ago, what a batch was cooled in is settled. */
const RECENT_MS = 2 * 86_400_000

/**
 * Of one preparation: its newest batch on the shelf, and every recent one that was read and is not in time yet.
 *
 * @param keptAt  °C by the house's own word; where that is no cold, only what somebody has read is told
 */
export async function readCoolingOnShelf(
  world: World,
  reader: Pick<Reader, 'cafeId'>,
  preparationId: string,
  keptAt: number | null,
): Promise<readonly CoolingBatch[]> {
  const rows = (await findShelf(world.db, reader.cafeId, [preparationId])).toSorted((a, b) => b.number - a.number)
  const logs = await readCooling(
    world,
    reader,
    rows.map(({ id }) => id),
  )
  return rows.flatMap(({ number, madeAt }, place) => {
    const log = logs[place]
    if (!log) return []
    const isRecent = madeAt === null || world.now().getTime() - madeAt.getTime() < RECENT_MS
    const isOpen = log.readings.length > 0 && log.cooling.state !== 'in-time' && isRecent
    return isOpen || (place === 0 && (needsCold(keptAt) || log.readings.length > 0)) ? [{ ...log, number }] : []
  })
}

/** Warmer than this is no cold store: °C. */
const COLD_STORE = 8

/** Is it kept in the cold, or does nobody say where? What is not said is not taken for safe. */
export function needsCold(keptAt: number | null): boolean {
  return keptAt === null || keptAt <= COLD_STORE
}
