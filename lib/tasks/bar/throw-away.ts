import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { setBatchArchived } from '@/lib/db/batches'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findShelfBatch } from '@/lib/db/shelf'
import { noteAct, type Actor, type World } from '../world'
import { findHousePreparations } from './house-preparations'

/**
 * What is left of a batch was thrown away: it is put aside, and the diary says by whom. Trials that it went into keep it.
 *
 * @param reads  may also put aside what no house recipe is made of
 */
export async function throwAway(
  world: World,
  actor: Actor,
  batchId: string,
  reads: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const row = await findShelfBatch(tx, actor.cafeId, batchId)
    if (!row || row.archivedAt !== null) return no('gone')
    if (!reads && !(await findHousePreparations(tx, actor.cafeId)).has(row.preparationId)) return no('gone')
    await setBatchArchived(tx, actor.cafeId, batchId, world.now())
    await noteAct(world, tx, actor, {
      act: 'batch-thrown-away',
      subjectKind: 'batch',
      subjectId: batchId,
      detail: { preparation: row.preparation.name, number: row.number },
    })
    return ok(null)
  })
}
