'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { ChangePasswordForm } from '@/lib/forms/account-form'
import { readForm } from '@/lib/forms/read-form'
import { changePassword } from '@/lib/tasks/team/reset-password'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const say = {
  wrong: () => 'This is not your present password.',
  wait: (seconds: string) => `Too many wrong passwords. Please try again in ${seconds} seconds.`,
}

export async function changePasswordAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('home')
  const sent = readForm(form, ChangePasswordForm)
  if (!sent.ok) return sent.answer
  const done = await changePassword(theWorld(), member, sent.value.currentPassword, sent.value.password)
  if (!done.ok) return sent.refuse('currentPassword', say[done.reason](done.detail?.['seconds'] ?? ''))
  redirect('/sign-in?after=reset')
}
