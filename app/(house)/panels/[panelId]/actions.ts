'use server'

import { redirect } from 'next/navigation'
import { revalidatePath } from 'next/cache'
import type { FormAnswer } from '@/app/ui/act-form'
import { requireMember } from '@/lib/auth/guard'
import { AddSeatsForm, NothingForm, OpenPanelForm, SeatChangeForm } from '@/lib/forms/panel-form'
import { readForm } from '@/lib/forms/read-form'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { callOffPanel } from '@/lib/tasks/plan/call-off-panel'
import { markSeatLeft } from '@/lib/tasks/pour/mark-seat-left'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { theWorld } from '@/lib/tasks/world'
import { sayPut } from './paper/say-put'
import { sayOpenRefusal } from './say-open-refusal'

export async function openAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, OpenPanelForm)
  if (!read.ok) return read.answer
  const opened = await openPanel(theWorld(), member, panelId, read.value.pourFresh === 'on')
  if (!opened.ok) {
    const field = opened.reason === 'batch-past-date' ? 'pourFresh' : ''
    return read.refuse(field, sayOpenRefusal(opened.reason, opened.detail))
  }
  redirect(`/panels/${panelId}`)
}

export async function callOffAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, NothingForm)
  if (!read.ok) return read.answer
  const gone = await callOffPanel(theWorld(), member, panelId)
  if (!gone.ok) return read.refuse('', sayCallOff[gone.reason])
  redirect(`/panels/${panelId}`)
}

const sayCallOff = {
  'not-open': 'This panel is not open any more.',
  tasted: 'Somebody has tasted meanwhile: what they said is kept. Close the panel instead.',
} as const

export async function addSeatsAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, AddSeatsForm)
  if (!read.ok) return read.answer
  const added = await addSeats(theWorld(), member, panelId, read.value.howMany, read.opened)
  if (!added.ok) {
    if (added.reason === 'seats-since') {
      const { seats = '', opened = '' } = added.detail ?? {}
      return read.tell(`There are ${seats} seats by now. If more are wanted still, add them.`, opened)
    }
    return added.reason === 'not-open'
      ? read.refuse('', 'The panel is not open any more.')
      : read.refuse('howMany', `At most ${added.detail?.['most'] ?? '200'} seats in all.`)
  }
  revalidatePath(`/panels/${panelId}`)
  redirect(`/panels/${panelId}#seats`)
}

/** One of two buttons about a seat: the taster has left, or goes on with pen and paper. */
export async function changeSeatAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, SeatChangeForm)
  if (!read.ok) return read.answer
  const { seat, change } = read.value
  if (change === 'left') {
    const left = await markSeatLeft(theWorld(), member, panelId, seat)
    if (!left.ok) return read.refuse('', 'There is no such seat here, or it has left already.')
    redirect(`/panels/${panelId}/watch`)
  }
  const put = await putSeatOnPaper(theWorld(), member, panelId, seat)
  if (!put.ok) return read.refuse('', sayPut[put.reason])
  redirect(`/panels/${panelId}/paper?seat=${seat}`)
}
