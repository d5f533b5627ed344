import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { findBatch, findBatchesById } from '@/lib/db/batches'
import { addFormula, findFormulaUses, findNewestFormulas } from '@/lib/db/formulas'
import { findPreparation, findPreparationsById } from '@/lib/db/preparations'
import { levelsOf, MOST_LEVELS } from '@/lib/drink/nesting'
import { findLoop } from '@/lib/drink/preparation'
import type { FormulaSent } from '@/lib/forms/formula-form'
import { formulaMark, isStale, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'
import { formulaContent, type FormulaRefusal } from './formula-content'
import { readStore } from './reach-store'

type Nested = 'loop' | 'too-deep'

/**
 * Adds the next version of how a preparation is made: it counts from here on, and the earlier ones stay as they are.
 *
 * @param opened  the mark of the version the form began with; null asks nothing
 */
export async function keepFormula(
  world: World,
  actor: Actor,
  preparationId: string,
  sent: FormulaSent,
  opened: OpenedWith | null,
): Promise<Result<number, FormulaRefusal | Nested | 'gone' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const preparation = await findPreparation(tx, actor.cafeId, preparationId)
    if (!preparation) return no('gone')
    const [before] = await findNewestFormulas(tx, actor.cafeId, [preparationId])
    if (isStale(opened, formulaMark(before ?? null))) return no('saved-elsewhere')
    const parts = sent.inputs.map(({ part }) => part)
    const store = await readStore(tx, actor.cafeId, world.now(), parts)
    const made = formulaContent(world, sent, store, preparation.kind)
    if (!made.ok) return made
    const { inputs, formula } = made.value
    const held = inputs.flatMap((input) => input.preparationId ?? [])
    const nested = await refuseNested(tx, actor.cafeId, preparationId, held)
    if (nested) return nested
    const id = world.id()
    const fresh = { id, cafeId: actor.cafeId, preparationId, createdAt: world.now(), createdById: actor.userId }
    const version = await addFormula(tx, { ...fresh, ...formula }, inputs)
    await noteAct(world, tx, actor, {
      act: 'formula-kept',
      subjectKind: 'preparation',
      subjectId: preparationId,
      detail: { version },
    })
    return ok(version)
  })
}

/** A preparation never contains itself, through whatever chain of formulas that count, and stands in no deeper than files may. */
async function refuseNested(tx: Tx, cafeId: string, preparationId: string, held: readonly string[]) {
  const uses = new Map([...(await findFormulaUses(tx, cafeId)), [preparationId, held] as const])
  const loop = findLoop(uses)
  if (loop) {
    const names = new Map((await findPreparationsById(tx, cafeId, loop)).map(({ id, name }) => [id, name]))
    return no<Nested>('loop', { path: loop.map((id) => names.get(id) ?? 'a preparation').join(' → ') })
  }
  const levels = levelsOf(uses.keys(), (id) => uses.get(id) ?? [])
  return levels > MOST_LEVELS ? no<Nested>('too-deep', { most: String(MOST_LEVELS) }) : null
}

/**
 * Takes a batch over as the first version: what went in, what came out as the target, what was done. A batch that went in
 * becomes its preparation: next time whichever batch of it is used first.
 */
export async function formulaFromBatch(
  world: World,
  actor: Actor,
  batchId: string,
): Promise<Result<string, Nested | 'gone' | 'has-formula'>> {
  return inTransaction(world, async (tx) => {
    const batch = await findBatch(tx, actor.cafeId, batchId)
    if (!batch) return no('gone')
    const { preparationId, preparation } = batch
    const [before] = await findNewestFormulas(tx, actor.cafeId, [preparationId])
    if (before) return no('has-formula')
    const inner = await findBatchesById(
      tx,
      actor.cafeId,
      batch.inputs.flatMap(({ inputBatchId }) => inputBatchId ?? []),
    )
    const preparationOf = new Map(inner.map((one) => [one.id, one.preparationId]))
    const inputs = batch.inputs.map(({ ingredientId, inputBatchId, ...input }) => ({
      id: world.id(),
      ingredientId,
      preparationId: inputBatchId === null ? null : (preparationOf.get(inputBatchId) ?? null),
      amountMg: input.amountMg,
      typed: input.typed,
      unit: input.unit,
      microdensity: input.microdensity,
      temperatureDeciC: input.temperatureDeciC,
      isStrainedOut: input.isStrainedOut,
    }))
    const held = inputs.flatMap((input) => input.preparationId ?? [])
    const nested = await refuseNested(tx, actor.cafeId, preparationId, held)
    if (nested) return nested
    const id = world.id()
    const { outputMg, brixHundredths, retentionMilli, steps } = batch
    const { storageDeciC, keepsHours } = preparation
    const fresh = { id, cafeId: actor.cafeId, preparationId, createdAt: world.now(), createdById: actor.userId }
    const taken = { brixHundredths, retentionMilli, storageDeciC, keepsHours, steps, note: null }
    const version = await addFormula(tx, { ...fresh, ...taken, targetMg: outputMg }, inputs)
    await noteAct(world, tx, actor, {
      act: 'formula-kept',
      subjectKind: 'preparation',
      subjectId: preparationId,
      detail: { version, batch: batch.number },
    })
    return ok(preparationId)
  })
}
