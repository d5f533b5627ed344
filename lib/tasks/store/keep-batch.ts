import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { momentOf } from '@/lib/base/zone-time'
import type { Tx } from '@/lib/db/engine/client'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addBatch, findBatchNames, findBatch, changeBatch, setBatchArchived, findBatchUses } from '@/lib/db/batches'
import { findFormulaOf } from '@/lib/db/formulas'
import { findPreparation } from '@/lib/db/preparations'
import { levelsOf, MOST_LEVELS, preparationsOf } from '@/lib/drink/nesting'
import { findLoop } from '@/lib/drink/preparation'
import { batchContent, type BatchRefusal } from './batch-content'
import type { BatchSent } from '@/lib/forms/preparation-form'
import { batchMark, isStale, type OpenedWith } from '../opened-with'
import { readStore } from './reach-store'
import { noteAct, type Actor, type World } from '../world'

export type BatchCook = Actor & { readonly cafe: { readonly currencyDigits: number; readonly timeZone: string } }

/** Writes a new batch of a preparation, with the next number. @returns its id */
export async function recordBatch(
  world: World,
  actor: BatchCook,
  preparationId: string,
  sent: BatchSent,
): Promise<Result<string, NewBatchRefusal>> {
  return inTransaction(world, (tx) => writeBatch(world, tx, actor, preparationId, sent))
}

export type NewBatchRefusal = BatchRefusal | 'gone' | 'too-deep'

/** The same in a transaction that has asked whether it may. */
export async function writeBatch(
  world: World,
  tx: Tx,
  actor: BatchCook,
  preparationId: string,
  sent: BatchSent,
): Promise<Result<string, NewBatchRefusal>> {
  const preparation = await findPreparation(tx, actor.cafeId, preparationId)
  if (!preparation) return no('gone')
  const store = await readStore(tx, actor.cafeId, world.now(), partsSent(sent))
  const made = batchContent(world, sent, store, preparation.kind)
  if (!made.ok) return made
  const id = world.id()
  const { inputs, batch } = made.value
  const held = heldBy(inputs).flatMap((inner) => store.get(`batch:${inner}`)?.preparation ?? [])
  if (1 + levelsOf(held, (inner) => preparationsOf(inner.inputs)) > MOST_LEVELS)
    return no('too-deep', { most: String(MOST_LEVELS) })
  const formula = sent.formulaId ? await findFormulaOf(tx, actor.cafeId, preparationId, sent.formulaId) : null
  const dates = datesOf(sent, actor.cafe.timeZone, formula?.keepsHours ?? preparation.keepsHours)
  const fresh = {
    ...{ id, cafeId: actor.cafeId, preparationId, formulaId: formula?.id ?? null },
    ...{ madeById: actor.userId, createdAt: world.now() },
  }
  const number = await addBatch(tx, { ...fresh, ...batch, ...dates }, inputs)
  await noteAct(world, tx, actor, {
    act: 'batch-recorded',
    subjectKind: 'batch',
    subjectId: id,
    detail: { preparation: preparation.name, number },
  })
  return ok(id)
}

/** Corrects a batch that nobody has poured yet. One that was poured stays; it is corrected by a new one. */
export async function correctBatch(
  world: World,
  actor: BatchCook,
  batchId: string,
  sent: BatchSent,
  opened: OpenedWith | null,
): Promise<Result<null, BatchRefusal | 'gone' | 'frozen' | 'loop' | 'too-deep' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const before = await findBatch(tx, actor.cafeId, batchId)
    if (!before) return no('gone')
    if (before.frozenAt) return no('frozen')
    if (isStale(opened, batchMark(before))) return no('saved-elsewhere')
    const store = await readStore(tx, actor.cafeId, world.now(), partsSent(sent))
    const made = batchContent(world, sent, store, before.preparation.kind)
    if (!made.ok) return made
    const { inputs, batch } = made.value
    const uses = await findBatchUses(tx, actor.cafeId)
    const held = heldBy(inputs)
    const loop = findLoop(new Map([...uses, [batchId, held]]))
    if (loop) {
      const names = await findBatchNames(tx, actor.cafeId, loop)
      return no('loop', { path: loop.map((id) => names.get(id) ?? 'a batch').join(' → ') })
    }
    // What stood deeper before there was a limit may still be corrected, as long as it grows no deeper.
    const levels = levelsWith(uses, batchId, held)
    if (levels > MOST_LEVELS && levels > levelsWith(uses, batchId, uses.get(batchId) ?? []))
      return no('too-deep', { most: String(MOST_LEVELS) })
    const { formulaId, preparationId, preparation } = before
    const formula = formulaId ? await findFormulaOf(tx, actor.cafeId, preparationId, formulaId) : null
    const dates = datesOf(sent, actor.cafe.timeZone, formula?.keepsHours ?? preparation.keepsHours)
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
  return inTransaction(world, async (tx) => {
    if (!(await setBatchArchived(tx, actor.cafeId, batchId, archived ? world.now() : null))) return no('gone')
    await noteAct(world, tx, actor, {
      act: archived ? 'batch-put-aside' : 'batch-taken-up',
      subjectKind: 'batch',
      subjectId: batchId,
    })
    return ok(null)
  })
}

const partsSent = (sent: BatchSent) => sent.inputs.map(({ part }) => part)

const heldBy = (inputs: readonly { readonly inputBatchId: string | null }[]) =>
  inputs.flatMap(({ inputBatchId }) => inputBatchId ?? [])

type Uses = ReadonlyMap<string, readonly string[]>

/** How many batches would stand one inside the other through this one: those in it, itself, and those it is poured into. */
function levelsWith(uses: Uses, batchId: string, held: readonly string[]): number {
  const usedBy = new Map<string, string[]>()
  for (const [outer, inner] of uses) {
    if (outer === batchId) continue
    for (const id of inner) {
      const before = usedBy.get(id)
      if (before) before.push(outer)
      else usedBy.set(id, [outer])
    }
  }
  return levelsOf(held, (id) => uses.get(id) ?? []) + levelsOf([batchId], (id) => usedBy.get(id) ?? [])
}

/** Made now unless it says when; discarded when the house's own limit for it runs out, unless it says when. */
function datesOf(sent: BatchSent, zone: string, keepsHours: number | null) {
  const madeAt = sent.madeAt ? momentOf(sent.madeAt, zone) : null
  const discardAt = sent.discardAt ? momentOf(sent.discardAt, zone) : null
  const limit = madeAt && keepsHours ? new Date(madeAt.getTime() + keepsHours * 3_600_000) : null
  return { madeAt, discardAt: discardAt ?? limit }
}
