'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { readAsker } from '@/lib/auth/asker'
import { requireMember } from '@/lib/auth/guard'
import { ChangePasswordForm } from '@/lib/forms/account-form'
import { readForm } from '@/lib/forms/read-form'
import { endEveryOtherSession, endOwnSession } from '@/lib/tasks/team/own-sessions'
import { changePassword } from '@/lib/tasks/team/reset-password'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayPassword } from '@/app/ui/say-password'

const say = {
  wrong: () => 'This is not your present password.',
  wait: (seconds: string) => `Too many wrong passwords. Please try again in ${seconds} seconds.`,
  guessable: () => sayPassword.guessable,
  busy: () => sayPassword.busy,
}

const fields = { wrong: 'currentPassword', wait: 'currentPassword', guessable: 'password', busy: '' } as const

export async function changePasswordAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('home')
  const sent = readForm(form, ChangePasswordForm)
  if (!sent.ok) return sent.answer
  const done = await changePassword(
    theWorld(),
    member,
    await readAsker(),
    sent.value.currentPassword,
    sent.value.password,
  )
  if (!done.ok) return sent.refuse(fields[done.reason], say[done.reason](done.detail?.['seconds'] ?? ''))
  redirect('/sign-in?after=reset')
}

export async function endSessionAction(sessionId: string): Promise<void> {
  const member = await requireMember('home', sessionId)
  await endOwnSession(theWorld(), member, sessionId)
  revalidatePath('/account')
}

export async function endOtherSessionsAction(): Promise<void> {
  const member = await requireMember('home')
  await endEveryOtherSession(theWorld(), member)
  revalidatePath('/account')
}
