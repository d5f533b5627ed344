'use server'

import { revalidatePath } from 'next/cache'
import { canDo, requireMember } from '@/lib/auth/guard'
import { CoolingForm } from '@/lib/forms/cooling-form'
import { readForm } from '@/lib/forms/read-form'
import { logCooling, strikeCooling } from '@/lib/tasks/bar/log-cooling'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

/** A batch stands on its own page and on the bar's. */
function showAnew(): void {
  revalidatePath('/bar', 'layout')
  revalidatePath('/store', 'layout')
}

export async function logCoolingAction(batchId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('bar:make', batchId)
  const sent = readForm(form, CoolingForm)
  if (!sent.ok) return sent.answer
  const logged = await logCooling(theWorld(), member, batchId, sent.value, canDo(member, 'recipe:read'))
  if (!logged.ok) {
    const where: Readonly<Record<typeof logged.reason, [field: string, words: string]>> = {
      gone: ['', 'This batch is not there any more.'],
      'not-yet': ['at', 'That time is still to come: write down what was read, when it was read.'],
      'no-time': ['at', 'Type a day and a time.'],
    }
    return sent.refuse(...where[logged.reason])
  }
  showAnew()
  return null
}

export async function strikeCoolingAction(readingId: string): Promise<void> {
  const member = await requireMember('bar:make', readingId)
  // struck out already is what was wanted
  await strikeCooling(theWorld(), member, readingId, canDo(member, 'recipe:read'))
  showAnew()
}
