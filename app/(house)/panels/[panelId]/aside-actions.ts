'use server'

import { redirect } from 'next/navigation'
import type { FormAnswer } from '@/app/ui/act-form'
import { numberKey, requireMember } from '@/lib/auth/guard'
import { SetAsideForm } from '@/lib/forms/panel-form'
import { readForm } from '@/lib/forms/read-form'
import { setSeatAside, takeSeatBackIn, type AsideRefusal } from '@/lib/tasks/pour/set-seat-aside'
import { theWorld } from '@/lib/tasks/world'

/** The page that asked, and goes on. */
export type AsideFrom = 'watch' | 'result'

const sayAside: Readonly<Record<AsideRefusal, string>> = {
  'no-such-seat': 'There is no such seat here.',
  'not-taken': 'Nobody has taken this seat, so there is nothing to set aside.',
  'set-aside-already': 'This seat is set aside already.',
}

export async function setAsideAction(
  panelId: string,
  from: AsideFrom,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId, from)
  const read = readForm(form, SetAsideForm)
  if (!read.ok) return read.answer
  const { seat, why } = read.value
  const done = await setSeatAside(theWorld(), member, panelId, seat, why)
  if (!done.ok) return read.refuse(from === 'result' ? 'seat' : '', sayAside[done.reason])
  redirect(pageOf(panelId, from))
}

/** The button stands only where it may be done; whoever presses it too late finds the page as it is now. */
export async function takeBackInAction(panelId: string, from: AsideFrom, seat: number): Promise<void> {
  const member = await requireMember('panel:run', panelId, from, numberKey(seat))
  await takeSeatBackIn(theWorld(), member, panelId, seat)
  redirect(pageOf(panelId, from))
}

const pageOf = (panelId: string, from: AsideFrom) => `/panels/${panelId}/${from === 'result' ? 'result' : 'watch'}`
