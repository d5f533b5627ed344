'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { LadderForm } from '@/lib/forms/ladder-form'
import { readForm } from '@/lib/forms/read-form'
import { climbLadder, type LadderRefusal } from '@/lib/tasks/trial/climb-ladder'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const say: Record<LadderRefusal, { field: string; words: string }> = {
  gone: { field: '', words: 'This trial is not there any more.' },
  'line-gone': { field: 'line', words: 'This line is not there any more.' },
  'part-gone': { field: 'parts', words: 'One of these is not in the store any more.' },
  'cannot-swap': { field: 'parts', words: 'The sugar cannot be held' },
  'no-ratio': { field: 'levels', words: 'This trial has no brew ratio: give it one on its sheet first.' },
  'ratio-too-low': {
    field: 'levels',
    words: 'A ratio must lie above what the grounds keep (about 2), or nothing comes out.',
  },
  'no-water': { field: 'parts', words: 'Enter drinking water in the store first: it keeps the balance.' },
}

export async function ladderAction(
  trialId: string,
  recipeId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId, recipeId)
  const sent = readForm(form, LadderForm)
  if (!sent.ok) return sent.answer
  const climbed = await climbLadder(theWorld(), member, trialId, sent.value)
  if (!climbed.ok) {
    const { field, words } = say[climbed.reason]
    const missing = climbed.detail?.['missing']
    return sent.refuse(field, missing ? `${words}: ${missing} is missing.` : words)
  }
  redirect(`/recipes/${recipeId}`)
}
