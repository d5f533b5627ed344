'use server'

import { cookies } from 'next/headers'
import { redirect } from 'next/navigation'
import { revalidatePath } from 'next/cache'
import type { FormAnswer } from '@/app/ui/act-form'
import { requireMember } from '@/lib/auth/guard'
import { besideTyped, PanelForm, withoutHidden } from '@/lib/forms/panel-form'
import { readField, readForm } from '@/lib/forms/read-form'
import { changePlan } from '@/lib/tasks/plan/change-plan'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { discardDraft } from '@/lib/tasks/plan/discard-draft'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { theWorld } from '@/lib/tasks/world'
import { addressCookie } from './phone-address'
import { answerPlan } from './plan-answer'
import { planAsTyped } from './plan-defaults'

export async function planAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', recipeId)
  const read = readForm(withoutHidden(form), PanelForm)
  if (!read.ok) return read.answer
  const planned = await planPanel(theWorld(), member, recipeId, read.value)
  if (!planned.ok) return answerPlan(read, planned)
  redirect(`/panels/${planned.value}`)
}

export async function changePlanAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(withoutHidden(form), PanelForm)
  if (!read.ok) return read.answer
  const changed = await changePlan(theWorld(), member, panelId, read.value, read.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere')
    return answerPlan(read, { ...changed, reason: changed.reason })
  const now = changed.ok ? null : await readPanel(theWorld(), member, panelId)
  const basis = now && (await readPlanBasis(theWorld(), member, now.recipe.id))
  const both = basis && read.offer(besideTyped(planAsTyped(now, basis.houseTrialId !== null), form), now.mark)
  if (both) return both
  redirect(`/panels/${panelId}`)
}

export async function discardAction(panelId: string): Promise<void> {
  const member = await requireMember('panel:run', panelId)
  const gone = await discardDraft(theWorld(), member, panelId)
  redirect(gone.ok ? '/panels' : `/panels/${panelId}`)
}

export async function testAgainAction(panelId: string): Promise<void> {
  const member = await requireMember('panel:run', panelId)
  const copied = await copyPanel(theWorld(), member, panelId)
  redirect(copied.ok ? `/panels/${copied.value}` : `/panels/${panelId}`)
}

/** Remembers in this browser which of the computer's addresses goes into the codes. */
export async function chooseAddressAction(back: string, form: FormData): Promise<void> {
  await requireMember('panel:run', back)
  const wanted = readField(form, 'address')
  if (wanted !== '') (await cookies()).set(addressCookie, wanted, { httpOnly: true, sameSite: 'lax' })
  revalidatePath(back)
}
