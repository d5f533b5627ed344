'use server'

import { redirect } from 'next/navigation'
import { openDoor } from '@/lib/auth/guard'
import { ResetForm } from '@/lib/forms/account-form'
import { readForm } from '@/lib/forms/read-form'
import { resetPassword } from '@/lib/tasks/team/reset-password'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayPassword } from '@/app/ui/say-password'

const say = { 'link-dead': 'This link is not open any more. Ask for a new one.', ...sayPassword } as const

export async function resetAction(token: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  openDoor('the reset link is the key', token)
  const sent = readForm(form, ResetForm)
  if (!sent.ok) return sent.answer
  const done = await resetPassword(theWorld(), token, sent.value.password)
  if (!done.ok) return sent.refuse(done.reason === 'guessable' ? 'password' : '', say[done.reason])
  redirect('/sign-in?after=reset')
}
