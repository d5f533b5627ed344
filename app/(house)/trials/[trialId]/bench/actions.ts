'use server'

import { revalidatePath } from 'next/cache'
import { requireMember } from '@/lib/auth/guard'
import { BenchNoteForm } from '@/lib/forms/bench-note-form'
import { readForm } from '@/lib/forms/read-form'
import { noteAtBench } from '@/lib/tasks/trial/note-at-bench'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

export async function benchNoteAction(trialId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId)
  const sent = readForm(form, BenchNoteForm)
  if (!sent.ok) return sent.answer
  const noted = await noteAtBench(theWorld(), member, trialId, sent.value)
  if (!noted.ok) {
    const words: Readonly<Record<typeof noted.reason, string>> = {
      gone: 'This trial is not there any more.',
      'is-tasting': 'You have a seat in an open panel that pours this trial: write it down when the panel is closed.',
    }
    return sent.refuse('', words[noted.reason])
  }
  revalidatePath(`/trials/${trialId}`)
  return null
}
