'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { BranchForm, NoteForm, TrialForm } from '@/lib/forms/trial-form'
import { branchTrial } from '@/lib/tasks/branch-trial'
import { archiveTrial, noteOnTrial } from '@/lib/tasks/note-on-trial'
import { changeTrial, recordTrial } from '@/lib/tasks/record-trial'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const say = {
  'part-gone': 'This was put aside in the meantime. Please choose again.',
  'recipe-gone': 'This recipe is not there any more.',
  'too-little': 'This is less than a milligram: too little to be kept.',
  'too-much': 'This is more than two tonnes.',
  frozen: 'This trial was poured in a panel meanwhile, so it stays as it is. Make another trial from it instead.',
} as const

/** A refusal about one line lands beside that line. */
function beside(refused: {
  reason: string
  detail?: Readonly<Record<string, string>>
}): [field: string, words: string] {
  const line = `lines[${refused.detail?.['line'] ?? '0'}]`
  if (refused.reason === 'density-missing')
    return [
      `${line}.density`,
      `${refused.detail?.['name'] ?? 'This'} is typed as a volume: how many grams is a ml of it? Or type grams.`,
    ]
  if (refused.reason === 'too-little' || refused.reason === 'too-much') return [`${line}.amount`, say[refused.reason]]
  if (refused.reason === 'part-gone') return [`${line}.part`, say['part-gone']]
  return ['', refused.reason === 'frozen' ? say.frozen : say['recipe-gone']]
}

export async function recordTrialAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, TrialForm)
  if (!sent.ok) return sent.answer
  const recorded = await recordTrial(theWorld(), member, recipeId, sent.value)
  if (!recorded.ok) return sent.refuse(...beside(recorded))
  redirect(`/trials/${recorded.value}`)
}

export async function changeTrialAction(trialId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId)
  const sent = readForm(form, TrialForm)
  if (!sent.ok) return sent.answer
  const changed = await changeTrial(theWorld(), member, trialId, sent.value)
  if (!changed.ok) return sent.refuse(...beside(changed))
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
