'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { ScalesForm } from '@/lib/forms/scales-form'
import { scalesMark } from '@/lib/tasks/opened-with'
import { keepScales } from '@/lib/tasks/store/keep-scales'
import { readScales } from '@/lib/tasks/store/read-scales'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { scalesDefaults } from './scales-defaults'

export async function keepScalesAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write')
  const sent = readForm(form, ScalesForm)
  if (!sent.ok) return sent.answer
  const kept = await keepScales(theWorld(), member, sent.value, sent.opened)
  if (!kept.ok) {
    const now = await readScales(theWorld(), member)
    const both = sent.offer(scalesDefaults(now), scalesMark(now))
    if (both) return both
  }
  redirect('/store')
}
