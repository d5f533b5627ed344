'use server'

import { redirect } from 'next/navigation'
import { readAsker } from '@/lib/auth/asker'
import { openDoor } from '@/lib/auth/guard'
import { AcceptInviteForm } from '@/lib/forms/account-form'
import { readForm } from '@/lib/forms/read-form'
import { acceptInvite, type JoinRefusal } from '@/lib/tasks/team/run-team'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayPassword } from '@/app/ui/say-password'

const say: Record<JoinRefusal, (seconds: string) => string> = {
  'link-dead': () => 'This invitation is not open any more. Ask for a new one.',
  'email-taken': () => 'Somebody here already has this address.',
  'wrong-earlier': () =>
    'Somebody with this address worked here before. If that was you, type the password you had then; whoever runs this computer can make a link for a new one.',
  wait: (seconds) => `Too many wrong passwords. Please try again in ${seconds} seconds.`,
  guessable: () => sayPassword.guessable,
  busy: () => sayPassword.busy,
}

const fields: Record<JoinRefusal, string> = {
  'link-dead': '',
  'email-taken': 'email',
  'wrong-earlier': 'password',
  wait: 'password',
  guessable: 'password',
  busy: '',
}

export async function acceptInviteAction(token: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  openDoor('the invitation is the key', token)
  const sent = readForm(form, AcceptInviteForm)
  if (!sent.ok) return sent.answer
  const joined = await acceptInvite(theWorld(), await readAsker(), token, sent.value)
  if (!joined.ok) return sent.refuse(fields[joined.reason], say[joined.reason](joined.detail?.['seconds'] ?? ''))
  redirect('/sign-in?after=joined')
}
