'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { TickForm } from '@/lib/forms/panel-form'
import { readForm } from '@/lib/forms/read-form'
import { openList } from '@/lib/tasks/open-list'
import { tickServings } from '@/lib/tasks/tick-servings'
import { theWorld } from '@/lib/tasks/world'

export async function openFillingAction(panelId: string): Promise<void> {
  const member = await requireMember('panel:pour')
  const opened = await openList(theWorld(), member, panelId, 'filling')
  redirect(`/panels/${panelId}/filling${opened.ok ? `?opening=${opened.value}` : ''}`)
}

export async function openServingAction(panelId: string): Promise<void> {
  const member = await requireMember('panel:pour')
  const opened = await openList(theWorld(), member, panelId, 'serving')
  redirect(`/panels/${panelId}/serving${opened.ok ? `?opening=${opened.value}` : ''}`)
}

/** @returns whether the ticks are in the book */
export async function tickAction(panelId: string, form: FormData): Promise<boolean> {
  const member = await requireMember('panel:pour', panelId)
  const read = readForm(form, TickForm)
  if (!read.ok) return false
  const ticked = await tickServings(theWorld(), member, panelId, read.value.servings, read.value.poured === 'yes')
  return ticked.ok
}
