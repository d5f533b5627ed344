'use server'

import { cookies } from 'next/headers'
import { redirect } from 'next/navigation'
import { SHOWN, shownCookie } from '@/app/taste/cookies'
import { requireMember } from '@/lib/auth/guard'
import { TickForm } from '@/lib/forms/panel-form'
import { readForm } from '@/lib/forms/read-form'
import { openList } from '@/lib/tasks/pour/open-list'
import { tickServings } from '@/lib/tasks/pour/tick-servings'
import { theWorld } from '@/lib/tasks/world'
import { heldHere } from './held-here'

/** @param agreed  "yes" where the page had asked about the seat held; a page that was opened earlier asks first */
export async function openFillingAction(panelId: string, agreed: string): Promise<void> {
  const member = await requireMember('panel:pour', panelId, agreed)
  const on = { browser: await heldHere(), agreed: agreed === 'yes' }
  const opened = await openList(theWorld(), member, panelId, 'filling', on)
  redirect(`/panels/${panelId}/filling${opened.ok ? `?opening=${opened.value}` : ''}`)
}

export async function openServingAction(panelId: string, agreed: string): Promise<void> {
  const member = await requireMember('panel:pour', panelId, agreed)
  const on = { browser: await heldHere(), agreed: agreed === 'yes' }
  const opened = await openList(theWorld(), member, panelId, 'serving', on)
  if (opened.ok) await rememberShown(opened.value)
  redirect(`/panels/${panelId}/serving${opened.ok ? `?opening=${opened.value}` : ''}`)
}

/** This browser has shown a serving list: signed out it is still no browser to taste on. */
async function rememberShown(openingId: string): Promise<void> {
  const jar = await cookies()
  const { name, value, ...how } = shownCookie(jar.get(SHOWN)?.value, openingId)
  jar.set(name, value, how)
}

/** @returns whether the ticks are in the book */
export async function tickAction(panelId: string, form: FormData): Promise<boolean> {
  const member = await requireMember('panel:pour', panelId)
  const read = readForm(form, TickForm)
  if (!read.ok) return false
  const ticked = await tickServings(theWorld(), member, panelId, read.value.servings, read.value.poured === 'yes')
  return ticked.ok
}
