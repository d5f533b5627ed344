import 'server-only'
import { no, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { BatchSent } from '@/lib/forms/preparation-form'
import { writeBatch, type BatchCook, type NewBatchRefusal } from '../store/keep-batch'
import type { World } from '../world'
import { findBarParts } from './bar-parts'
import { findHousePreparations } from './house-preparations'

/**
 * Writes down a batch that was made behind the bar. What came out must be weighed: nobody there can add it later.
 *
 * @param reads  may also record what no house recipe is made of, from anything in the store
 * @returns      the batch's id; `gone` for a preparation that is not the bar's, `part-gone` for an input that is not
 */
export async function recordBarBatch(
  world: World,
  actor: BatchCook,
  preparationId: string,
  sent: BatchSent,
  reads: boolean,
): Promise<Result<string, NewBatchRefusal | 'not-weighed'>> {
  return inTransaction(world, async (tx) => {
    const { cafeId } = actor
    if (!reads) {
      if (!(await findHousePreparations(tx, cafeId)).has(preparationId)) return no('gone')
      const offered = new Set((await findBarParts(tx, cafeId, world.now())).map(({ ref }) => ref))
      const strange = sent.inputs.findIndex(({ part }) => part !== undefined && part !== '' && !offered.has(part))
      if (strange >= 0) return no('part-gone', { line: String(strange) })
    }
    if (sent.output === undefined) return no('not-weighed')
    return writeBatch(world, tx, actor, preparationId, sent)
  })
}
