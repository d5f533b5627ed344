'use server'

import { redirect } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { BatchForm } from '@/lib/forms/preparation-form'
import { readForm } from '@/lib/forms/read-form'
import { recordBarBatch } from '@/lib/tasks/bar/record-bar-batch'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { besideBatch } from '../../store/preparations/beside-batch'

export async function recordBarBatchAction(
  preparationId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('bar:make', preparationId)
  const sent = readForm(form, BatchForm)
  if (!sent.ok) return sent.answer
  const recorded = await recordBarBatch(theWorld(), member, preparationId, sent.value, canDo(member, 'recipe:read'))
  if (!recorded.ok) return sent.refuse(...besideBatch(recorded))
  redirect(`/bar/labels/${recorded.value}`)
}
