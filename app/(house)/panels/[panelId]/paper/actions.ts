'use server'

import { redirect } from 'next/navigation'
import type { FormAnswer } from '@/app/ui/act-form'
import { requireMember } from '@/lib/auth/guard'
import { PaperForm } from '@/lib/forms/paper-form'
import { readForm } from '@/lib/forms/read-form'
import { enterPaperScores, type PaperRefusal } from '@/lib/tasks/enter-paper-scores'
import { putSeatOnPaper } from '@/lib/tasks/put-seat-on-paper'
import { theWorld } from '@/lib/tasks/world'

export async function putOnPaperAction(panelId: string, seat: number): Promise<void> {
  const member = await requireMember('panel:run', panelId)
  const put = await putSeatOnPaper(theWorld(), member, panelId, seat)
  redirect(`/panels/${panelId}/paper${put.ok ? `?seat=${seat}` : ''}`)
}

export async function enterPaperAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, PaperForm)
  if (!read.ok) return read.answer
  const entered = await enterPaperScores(theWorld(), member, panelId, read.value)
  if (!entered.ok) return read.refuse(entered.detail?.['field'] ?? '', say[entered.reason])
  redirect(`/panels/${panelId}/paper?kept=${read.value.seat}`)
}

const say: Record<PaperRefusal, string> = {
  'no-such-seat': 'There is no such seat, or the panel is not open any more. Nothing was written.',
  'not-on-paper': 'This seat answers on a phone. Put it on paper first.',
  'code-elsewhere': 'This code is not on this seat’s tray.',
  'code-twice': 'This code is there twice.',
}
