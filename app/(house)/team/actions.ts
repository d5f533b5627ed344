'use server'

import { revalidatePath } from 'next/cache'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { isRole } from '@/lib/auth/rights'
import { CafeForm, InviteForm, NameDaysForm } from '@/lib/forms/account-form'
import { readField, readForm } from '@/lib/forms/read-form'
import { chooseHearing } from '@/lib/tasks/home/keep-home-sheet'
import { changeCafe, type CurrencyRefusal } from '@/lib/tasks/house/change-cafe'
import {
  changeRole,
  inviteMember,
  readTeam,
  removeMember,
  withdrawInvite,
  type TeamRefusal,
} from '@/lib/tasks/team/run-team'
import { cafeMark, nameDaysMark } from '@/lib/tasks/opened-with'
import { chooseNameDays } from '@/lib/tasks/privacy/choose-name-days'
import { forgetLeaver } from '@/lib/tasks/privacy/forget-leaver'
import { theForgottenMarks } from '@/lib/tasks/privacy/the-marks'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { cafeAsTyped } from './cafe-as-typed'
import { nameDaysAsTyped } from './name-days-as-typed'

const say: Record<TeamRefusal, string> = {
  'not-a-member': 'This person is not on the team any more.',
  'last-owner': 'A café keeps at least one owner. Make somebody else an owner first.',
}

export async function inviteAction(form: FormData): Promise<{ path: string } | { problem: FormAnswer }> {
  const owner = await requireMember('team')
  const sent = readForm(form, InviteForm)
  if (!sent.ok) return { problem: sent.answer }
  const token = await inviteMember(theWorld(), owner, sent.value.role, sent.value.email ?? null)
  revalidatePath('/team')
  return { path: `/invite/${token}` }
}

export async function withdrawInviteAction(linkId: string): Promise<void> {
  const owner = await requireMember('team', linkId)
  await withdrawInvite(theWorld(), owner, linkId)
  revalidatePath('/team')
}

export async function changeRoleAction(userId: string, _before: string | null, form: FormData): Promise<string | null> {
  const owner = await requireMember('team', userId)
  const role = readField(form, 'role')
  if (!isRole(role)) return 'Please choose one of the roles.'
  const done = await changeRole(theWorld(), owner, userId, role)
  revalidatePath('/team')
  return done.ok ? null : say[done.reason]
}

export async function removeMemberAction(userId: string): Promise<string | null> {
  const owner = await requireMember('team', userId)
  const done = await removeMember(theWorld(), owner, userId)
  revalidatePath('/team')
  return done.ok ? null : say[done.reason]
}

/** Which figures the wanted currency cannot say. */
function sayCurrency(reason: CurrencyRefusal, currency: string, figures: string): string {
  const words: Record<CurrencyRefusal, string> = {
    'too-fine': `Every amount keeps its figure, and ${currency} has too few decimals for ${figures}. Change or strike out these first.`,
    'too-great': `Every amount keeps its figure, and one amount of ${currency} cannot be as great as ${figures}. Change or strike out these first.`,
  }
  return words[reason]
}

export async function changeCafeAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const owner = await requireMember('cafe')
  const sent = readForm(form, CafeForm)
  if (!sent.ok) return sent.answer
  const changed = await changeCafe(theWorld(), owner, sent.value, sent.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere')
    return sent.refuse('currency', sayCurrency(changed.reason, sent.value.currency, changed.detail?.['figures'] ?? ''))
  const both = changed.ok ? null : sent.offer(cafeAsTyped(owner.cafe), cafeMark(owner.cafe))
  if (both) return both
  revalidatePath('/', 'layout')
  return null
}

export async function chooseNameDaysAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const owner = await requireMember('cafe')
  const sent = readForm(form, NameDaysForm)
  if (!sent.ok) return sent.answer
  const { nameDays } = sent.value
  const chosen = await chooseNameDays(theWorld(), theForgottenMarks(), owner, nameDays, sent.opened)
  if (chosen.ok) {
    revalidatePath('/team')
    return null
  }
  const stored = (await readTeam(theWorld(), owner)).nameDays
  return sent.offer(nameDaysAsTyped(stored), nameDaysMark(stored))
}

export async function forgetLeaverAction(userId: string): Promise<void> {
  const owner = await requireMember('team', userId)
  await forgetLeaver(theWorld(), theForgottenMarks(), owner, userId)
  revalidatePath('/team')
}

/** @param wanted  "on" or "off": pressed twice it stays as wanted */
export async function chooseHearingAction(wanted: string): Promise<void> {
  const owner = await requireMember('cafe', wanted)
  if (wanted !== 'on' && wanted !== 'off') notFound()
  await chooseHearing(theWorld(), owner, wanted === 'on')
  revalidatePath('/team')
}
