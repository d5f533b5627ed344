'use server'

import { redirect } from 'next/navigation'
import { openDoor } from '@/lib/auth/guard'
import { signInWhoJustCame } from '@/lib/auth/session'
import { SetUpForm } from '@/lib/forms/account-form'
import { readForm } from '@/lib/forms/read-form'
import { setUpHouse } from '@/lib/tasks/house/set-up-house'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayPassword } from '@/app/ui/say-password'

const say = {
  'link-dead': 'This set-up link is not open any more. The start command prints the present one.',
  'email-taken': 'Somebody here already has this address.',
  ...sayPassword,
} as const

const fields = { 'link-dead': '', 'email-taken': 'email', guessable: 'password', busy: '' } as const

export async function setUpAction(token: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  openDoor('the set-up link is the key', token)
  const sent = readForm(form, SetUpForm)
  if (!sent.ok) return sent.answer
  const made = await setUpHouse(theWorld(), token, sent.value)
  if (!made.ok) return sent.refuse(fields[made.reason], say[made.reason])
  await signInWhoJustCame(sent.value.email)
  redirect('/')
}
