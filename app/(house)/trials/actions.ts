'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { BranchForm, NoteForm, TrialForm } from '@/lib/forms/trial-form'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { archiveTrial, noteOnTrial } from '@/lib/tasks/trial/note-on-trial'
import { trialMark } from '@/lib/tasks/opened-with'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { changeTrial } from '@/lib/tasks/trial/record-trial'
import type { ContentRefusal } from '@/lib/tasks/trial/trial-content'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayNoPump } from '@/app/ui/unit-words'
import { sheetDefaults } from './[trialId]/edit/sheet-defaults'

type Refused = {
  readonly reason: ContentRefusal | 'recipe-gone' | 'frozen'
  readonly detail?: Readonly<Record<string, string>>
}

/** A refusal about one line lands beside that line. */
function beside({ reason, detail = {} }: Refused): [field: string, words: string] {
  const line = `lines[${detail['line'] ?? '0'}]`
  const where: Readonly<Record<Refused['reason'], [field: string, words: string]>> = {
    'density-missing': [
      `${line}.density`,
      `${detail['name'] ?? 'This'} is typed as a volume: how many grams is a ml of it? Or type grams.`,
    ],
    'kind-missing': [`${line}.newKind`, 'Say what it is.'],
    'pump-missing': [`${line}.unit`, sayNoPump(detail['name'])],
    'too-little': [`${line}.amount`, 'This is less than a milligram: too little to be kept.'],
    'too-much': [`${line}.amount`, 'This is more than two tonnes.'],
    'part-gone': [`${line}.part`, 'This was put aside in the meantime. Please choose again.'],
    'recipe-gone': ['', 'This recipe is not there any more.'],
    frozen: [
      '',
      'This trial was poured in a panel meanwhile, so it stays as it is. Make another trial from it instead.',
    ],
  }
  return where[reason]
}

export async function changeTrialAction(trialId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId)
  const sent = readForm(form, TrialForm)
  if (!sent.ok) return sent.answer
  const changed = await changeTrial(theWorld(), member, trialId, sent.value, sent.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere')
    return sent.refuse(...beside({ ...changed, reason: changed.reason }))
  const now = changed.ok ? null : await readTrial(theWorld(), member, trialId)
  const offer = now && (await readSheetOffer(theWorld(), member, now.trial.recipeId))
  const both = offer && sent.offer(sheetDefaults(now, offer), trialMark(now.trial))
  if (both) return both
  redirect(`/trials/${trialId}`)
}

export async function branchTrialAction(trialId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId)
  const sent = readForm(form, BranchForm)
  if (!sent.ok) return sent.answer
  const child = await branchTrial(theWorld(), member, trialId, sent.value.name)
  if (!child.ok) return sent.refuse('', 'This trial is not there any more.')
  redirect(`/trials/${child.value}/edit`)
}

export async function noteAction(trialId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId)
  const sent = readForm(form, NoteForm)
  if (!sent.ok) return sent.answer
  const noted = await noteOnTrial(theWorld(), member, trialId, sent.value.text)
  if (!noted.ok) return sent.refuse('', 'This trial is not there any more.')
  revalidatePath(`/trials/${trialId}`)
  return null
}

export async function archiveTrialAction(trialId: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', trialId)
  await archiveTrial(theWorld(), member, trialId, archived)
  revalidatePath(`/trials/${trialId}`)
}
