import 'server-only'
import { momentOf } from '@/lib/base/zone-time'
import { no, ok, type Result } from '@/lib/base/result'
import { addCoolingReading, findCoolingReading, strikeCoolingReading } from '@/lib/db/cooling'
import type { Tx } from '@/lib/db/engine/client'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findShelfBatch } from '@/lib/db/shelf'
import type { CoolingSent } from '@/lib/forms/cooling-form'
import { noteAct, type Actor, type World } from '../world'
import { findHousePreparations } from './house-preparations'

/** A clock on the wall may run this far ahead of the computer's. */
const AHEAD_MS = 5 * 60_000

/** A batch that the bar may speak of. @param reads  of what no house recipe is made of, too */
async function batchOf(tx: Tx, cafeId: string, batchId: string, reads: boolean) {
  const batch = await findShelfBatch(tx, cafeId, batchId)
  if (!batch) return null
  return reads || (await findHousePreparations(tx, cafeId)).has(batch.preparationId) ? batch : null
}

/**
 * Writes down what a thermometer showed in a batch. Sending it again adds nothing.
 *
 * @returns `not-yet` for a time to come: what was not read must not count
 */
export async function logCooling(
  world: World,
  actor: Actor & { readonly cafe: { readonly timeZone: string } },
  batchId: string,
  sent: CoolingSent,
  reads: boolean,
): Promise<Result<null, 'gone' | 'not-yet' | 'no-time'>> {
  return inTransaction(world, async (tx) => {
    const { cafeId, userId } = actor
    const batch = await batchOf(tx, cafeId, batchId, reads)
    if (!batch) return no('gone')
    const now = world.now()
    const at = sent.at === undefined ? now : momentOf(sent.at, actor.cafe.timeZone)
    if (at === null) return no('no-time')
    if (at.getTime() > now.getTime() + AHEAD_MS) return no('not-yet')
    const deciC = Math.round(sent.celsius * 10)
    const row = { id: world.id(), cafeId, batchId, key: sent.key, deciC, at, byId: userId }
    if (await addCoolingReading(tx, row))
      await noteAct(world, tx, actor, {
        act: 'cooling-read',
        subjectKind: 'batch',
        subjectId: batchId,
        detail: { preparation: batch.preparation.name, number: batch.number, celsius: deciC / 10 },
      })
    return ok(null)
  })
}

/** Strikes out a reading that was mistyped: it stays to be seen, and counts no more. */
export async function strikeCooling(
  world: World,
  actor: Actor,
  readingId: string,
  reads: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const { cafeId, userId } = actor
    const reading = await findCoolingReading(tx, cafeId, readingId)
    const batch = reading && (await batchOf(tx, cafeId, reading.batchId, reads))
    if (!batch || reading.struckAt !== null) return no('gone')
    await strikeCoolingReading(tx, cafeId, readingId, world.now(), userId)
    await noteAct(world, tx, actor, {
      act: 'cooling-struck-out',
      subjectKind: 'batch',
      subjectId: reading.batchId,
      detail: { preparation: batch.preparation.name, number: batch.number, celsius: reading.deciC / 10 },
    })
    return ok(null)
  })
}
