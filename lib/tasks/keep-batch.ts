import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { momentOf } from '@/lib/base/zone-time'
import { addBatch } from '@/lib/db/batches'
import type { Tx } from '@/lib/db/client'
import { changeBatch, findBatch, findBatchUses, findPreparation, setBatchArchived } from '@/lib/db/preparations'
import { findLoop } from '@/lib/drink/preparation'
import { batchContent, type BatchRefusal } from './batch-content'
import type { BatchSent } from '@/lib/forms/preparation-form'
import { readStore } from './trial-build'
import type { Store } from './store-part'
import { noteAct, type Actor, type World } from './world'

export type BatchCook = Actor & { readonly cafe: { readonly currencyDigits: number; readonly timeZone: string } }

/** Writes a new batch of a preparation, with the next number. @returns its id */
export async function recordBatch(
  world: World,
  actor: BatchCook,
  preparationId: string,
  sent: BatchSent,
): Promise<Result<string, BatchRefusal | 'gone'>> {
  return world.db.$transaction(async (tx) => {
    const preparation = await findPreparation(tx, actor.cafeId, preparationId)
    if (!preparation) return no('gone')
    const store = await readStore(tx, actor.cafeId, actor.cafe)
    const made = batchContent(world, sent, store, preparation.kind)
    if (!made.ok) return made
    const id = world.id()
    const { inputs, batch } = made.value
    const dates = datesOf(sent, actor.cafe.timeZone, preparation.keepsHours)
    const fresh = { id, cafeId: actor.cafeId, preparationId, madeById: actor.userId, createdAt: world.now() }
    const number = await addBatch(tx, { ...fresh, ...batch, ...dates }, inputs)
    await noteAct(world, tx, actor, {
      act: 'batch-recorded',
      subjectKind: 'batch',
      subjectId: id,
      detail: { preparation: preparation.name, number },
    })
    return ok(id)
  })
}

/** Corrects a batch that nobody has poured yet. One that was poured stays; it is corrected by a new one. */
export async function correctBatch(
  world: World,
  actor: BatchCook,
  batchId: string,
  sent: BatchSent,
): Promise<Result<null, BatchRefusal | 'gone' | 'frozen' | 'loop'>> {
  return world.db.$transaction(async (tx) => {
    const before = await findBatch(tx, actor.cafeId, batchId)
    if (!before) return no('gone')
    if (before.frozenAt) return no('frozen')
    const store = await readStore(tx, actor.cafeId, actor.cafe)
    const made = batchContent(world, sent, store, before.preparation.kind)
    if (!made.ok) return made
    const { inputs, batch } = made.value
    const loop = await loopWith(tx, actor, batchId, inputs, store)
    if (loop) return no('loop', { path: loop })
    const dates = datesOf(sent, actor.cafe.timeZone, before.preparation.keepsHours)
    await changeBatch(tx, actor.cafeId, batchId, { ...batch, ...dates }, inputs)
    await noteAct(world, tx, actor, { act: 'batch-corrected', subjectKind: 'batch', subjectId: batchId })
    return ok(null)
  })
}

export async function archiveBatch(
  world: World,
  actor: Actor,
  batchId: string,
  archived: boolean,
): Promise<Result<null, 'gone'>> {
  return world.db.$transaction(async (tx) => {
    if (!(await setBatchArchived(tx, actor.cafeId, batchId, archived ? world.now() : null))) return no('gone')
    await noteAct(world, tx, actor, {
      act: archived ? 'batch-put-aside' : 'batch-taken-up',
      subjectKind: 'batch',
      subjectId: batchId,
    })
    return ok(null)
  })
}

/** The path of a loop this batch would close, by name, or null. */
async function loopWith(
  tx: Tx,
  actor: Actor,
  batchId: string,
  inputs: readonly { readonly inputBatchId: string | null }[],
  store: Store,
): Promise<string | null> {
  const uses = await findBatchUses(tx, actor.cafeId)
  uses.set(
    batchId,
    inputs.flatMap(({ inputBatchId }) => inputBatchId ?? []),
  )
  const loop = findLoop(uses)
  return loop && loop.map((id) => store.get(`batch:${id}`)?.name ?? 'a batch').join(' → ')
}

/** Made now unless it says when; discarded when the house's own limit for it runs out, unless it says when. */
function datesOf(sent: BatchSent, zone: string, keepsHours: number | null) {
  const madeAt = sent.madeAt ? momentOf(sent.madeAt, zone) : null
  const discardAt = sent.discardAt ? momentOf(sent.discardAt, zone) : null
  const limit = madeAt && keepsHours ? new Date(madeAt.getTime() + keepsHours * 3_600_000) : null
  return { madeAt, discardAt: discardAt ?? limit }
}
