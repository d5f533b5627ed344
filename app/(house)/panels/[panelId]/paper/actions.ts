'use server'

import { redirect } from 'next/navigation'
import type { FormAnswer } from '@/app/ui/act-form'
import { numberKey, requireMember } from '@/lib/auth/guard'
import { PaperForm } from '@/lib/forms/paper-form'
import { readForm } from '@/lib/forms/read-form'
import { enterPaperScores, type PaperRefusal } from '@/lib/tasks/pour/enter-paper-scores'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { theWorld } from '@/lib/tasks/world'
import { listed } from '../../panel-words'

export async function putOnPaperAction(panelId: string, seat: number): Promise<void> {
  const member = await requireMember('panel:run', panelId, numberKey(seat))
  const put = await putSeatOnPaper(theWorld(), member, panelId, seat)
  redirect(`/panels/${panelId}/paper?seat=${seat}${put.ok ? '' : `&refused=${put.reason}`}`)
}

export async function enterPaperAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, PaperForm)
  if (!read.ok) return read.answer
  const entered = await enterPaperScores(theWorld(), member, panelId, read.value)
  if (!entered.ok) return read.refuse(entered.detail?.['field'] ?? '', sayRefusal(entered.reason, entered.detail))
  redirect(`/panels/${panelId}/paper?kept=${read.value.seat}`)
}

const say: Record<PaperRefusal, string> = {
  'no-such-seat': 'There is no such seat, or the panel is not open any more. Nothing was written.',
  'not-on-paper': 'This seat answers on a phone. Put it on paper first.',
  barred: 'This seat takes no more scores: its taster has opened the serving list. Nothing was written.',
  'set-aside': 'The house has set this seat aside, so it takes no more scores. Nothing was written.',
  'code-elsewhere': 'This code is not on this seat’s tray.',
  'code-twice': 'This code is there twice.',
  'answered-on-phone':
    'answered on the phone meanwhile, and that stands. Nothing of this sheet was written. Load the page again and leave out',
  'off-the-scale': 'That is not on the scale: liking 1 to 9, just right 1 to 5, along a line 0 to 100.',
  'no-such-answer': 'That is no answer to this question: one of the codes on this seat’s tray, please.',
  'typed-meanwhile':
    'Somebody has typed in or corrected this sheet since you opened this page. Nothing was written. Load the page again and compare it with the paper.',
}

function sayRefusal(reason: PaperRefusal, detail: Readonly<Record<string, string>> | undefined): string {
  if (reason !== 'answered-on-phone') return say[reason]
  const codes = (detail?.['codes'] ?? '').split(', ').map((code) => code.split('').join('\u00a0'))
  const one = codes.length === 1
  return `${one ? 'Cup' : 'Cups'} ${listed(codes)} ${one ? 'was' : 'were'} ${say[reason]} ${one ? 'this cup' : 'these cups'}.`
}
