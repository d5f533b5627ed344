'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { BranchForm, inMoneyOf, NoteForm, TrialForm } from '@/lib/forms/trial-form'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { archiveTrial, noteOnTrial } from '@/lib/tasks/trial/note-on-trial'
import { trialMark } from '@/lib/tasks/opened-with'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { changeTrial } from '@/lib/tasks/trial/record-trial'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sheetDefaults } from './[trialId]/edit/sheet-defaults'
import { besideLine } from './say-content'

const sayFrozen =
  'This trial was poured in a panel meanwhile, so it stays as it is. Make another trial from it instead.'

export async function changeTrialAction(trialId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId)
  const sent = readForm(form, TrialForm.superRefine(inMoneyOf(member.cafe)))
  if (!sent.ok) return sent.answer
  const changed = await changeTrial(theWorld(), member, trialId, sent.value, sent.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere') {
    const { reason, detail } = changed
    if (reason === 'frozen') return sent.refuse('', sayFrozen)
    return sent.refuse(...besideLine(reason, detail))
  }
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
