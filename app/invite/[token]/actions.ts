'use server'

import { redirect } from 'next/navigation'
import { openDoor } from '@/lib/auth/guard'
import { AcceptInviteForm } from '@/lib/forms/account-form'
import { readForm } from '@/lib/forms/read-form'
import { acceptInvite } from '@/lib/tasks/team/run-team'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const say = {
  'link-dead': 'This invitation is not open any more. Ask for a new one.',
  'email-taken': 'Somebody here already has this address.',
} as const

export async function acceptInviteAction(token: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  openDoor('the invitation is the key')
  const sent = readForm(form, AcceptInviteForm)
  if (!sent.ok) return sent.answer
  const joined = await acceptInvite(theWorld(), token, sent.value)
  if (!joined.ok) return sent.refuse(joined.reason === 'email-taken' ? 'email' : '', say[joined.reason])
  redirect('/sign-in?after=joined')
}
