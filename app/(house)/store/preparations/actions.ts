'use server'

import { redirect } from 'next/navigation'
import * as z from 'zod'
import { requireMember } from '@/lib/auth/guard'
import { FormulaForm } from '@/lib/forms/formula-form'
import { BatchForm, PreparationForm } from '@/lib/forms/preparation-form'
import { readForm } from '@/lib/forms/read-form'
import { archiveBatch, correctBatch, recordBatch } from '@/lib/tasks/store/keep-batch'
import { archivePreparation, changePreparationNotes, startPreparation } from '@/lib/tasks/store/keep-preparation'
import { formulaFromBatch, keepFormula } from '@/lib/tasks/store/keep-formula'
import { batchMark, formulaMark, preparationMark } from '@/lib/tasks/opened-with'
import { readBatch, readPreparation } from '@/lib/tasks/store/read-preparation'
import { readFormula } from '@/lib/tasks/store/read-formula'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { besideBatch as beside, goneFromStore as gone, type Refused } from './beside-batch'
import { batchDefaults } from './[preparationId]/batches/[batchId]/edit/batch-defaults'
import { formulaDefaults } from './[preparationId]/formula/formula-defaults'
import { preparationDefaults } from './preparation-defaults'

const taken = 'A preparation of this name is there already.'

export async function startPreparationAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write')
  const sent = readForm(form, PreparationForm)
  if (!sent.ok) return sent.answer
  const started = await startPreparation(theWorld(), member, sent.value)
  if (!started.ok) return sent.refuse('name', taken)
  redirect(`/store/preparations/${started.value}/batches/new`)
}

export async function changePreparationAction(id: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', id)
  const sent = readForm(form, PreparationForm)
  if (!sent.ok) return sent.answer
  const changed = await changePreparationNotes(theWorld(), member, id, sent.value, sent.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere')
    return changed.reason === 'gone' ? sent.refuse('', gone) : sent.refuse('name', taken)
  const now = changed.ok ? null : await readPreparation(theWorld(), member, id)
  const both = now && sent.offer(preparationDefaults(now), preparationMark(now))
  if (both) return both
  redirect(`/store/preparations/${id}`)
}

export async function archivePreparationAction(id: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', id)
  await archivePreparation(theWorld(), member, id, archived)
  redirect(`/store/preparations/${id}`)
}

export async function keepFormulaAction(
  preparationId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', preparationId)
  const sent = readForm(form, FormulaForm)
  if (!sent.ok) return sent.answer
  const kept = await keepFormula(theWorld(), member, preparationId, sent.value, sent.opened)
  if (!kept.ok && kept.reason !== 'saved-elsewhere') return sent.refuse(...besideFormula(kept))
  const now = kept.ok ? null : await readFormula(theWorld(), member, preparationId)
  const both = now && sent.offer(formulaDefaults(now.newest), formulaMark(now.newest.row))
  if (both) return both
  redirect(`/store/preparations/${preparationId}`)
}

/** What a formula alone is refused for; the rest as of a batch. */
function besideFormula(refused: Refused): [field: string, words: string] {
  const { reason, detail = {} } = refused
  const words: Readonly<Record<string, [string, string]>> = {
    'target-too-heavy': ['target', `More would come out than goes in (${detail['grams'] ?? ''} g).`],
    'has-formula': ['', 'It has a formula by now: look at it first.'],
  }
  return words[reason] ?? beside(refused)
}

export async function formulaFromBatchAction(
  batchId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', batchId)
  const sent = readForm(form, z.object({}))
  if (!sent.ok) return sent.answer
  const taken = await formulaFromBatch(theWorld(), member, batchId)
  if (!taken.ok) return sent.refuse('', besideFormula(taken)[1])
  redirect(`/store/preparations/${taken.value}`)
}

export async function recordBatchAction(
  preparationId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', preparationId)
  const sent = readForm(form, BatchForm)
  if (!sent.ok) return sent.answer
  const recorded = await recordBatch(theWorld(), member, preparationId, sent.value)
  if (!recorded.ok) return sent.refuse(...beside(recorded))
  redirect(`/store/preparations/${preparationId}/batches/${recorded.value}`)
}

export async function correctBatchAction(
  preparationId: string,
  batchId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', preparationId, batchId)
  const sent = readForm(form, BatchForm)
  if (!sent.ok) return sent.answer
  const corrected = await correctBatch(theWorld(), member, batchId, sent.value, sent.opened)
  if (!corrected.ok && corrected.reason !== 'saved-elsewhere') return sent.refuse(...beside(corrected))
  const now = corrected.ok ? null : await readBatch(theWorld(), member, batchId)
  const both = now && sent.offer(batchDefaults(now, member.cafe.timeZone), batchMark(now.row))
  if (both) return both
  redirect(`/store/preparations/${preparationId}/batches/${batchId}`)
}

export async function archiveBatchAction(preparationId: string, batchId: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', preparationId, batchId)
  await archiveBatch(theWorld(), member, batchId, archived)
  redirect(`/store/preparations/${preparationId}/batches/${batchId}`)
}
