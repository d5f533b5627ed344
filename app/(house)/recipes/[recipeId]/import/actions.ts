'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { ImportForm } from '@/lib/forms/trial-form'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

export async function importTrialAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, ImportForm)
  if (!sent.ok) return sent.answer
  const brought = await importTrial(theWorld(), member, recipeId, sent.value.content)
  if (brought.ok) redirect(`/trials/${brought.value}`)
  if (brought.reason === 'recipe-gone') return sent.refuse('', 'This recipe is not there any more.')
  return sent.refuse(
    'content',
    `${brought.detail?.['path'] ?? 'The file'}: ${brought.detail?.['message'] ?? 'cannot be read'}.`,
  )
}
