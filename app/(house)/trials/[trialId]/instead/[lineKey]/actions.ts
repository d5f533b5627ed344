'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { InsteadForm } from '@/lib/forms/instead-form'
import { readForm } from '@/lib/forms/read-form'
import { makeInstead, type InsteadRefusal } from '@/lib/tasks/trial/make-instead'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const say: Readonly<Record<InsteadRefusal, string>> = {
  gone: 'This line is not there any more.',
  'allergens-unread': 'Read which allergens are new with it, and tick that you did.',
  changed: 'The sheet or the store has changed since this was worked out. Load the page again, please.',
}

export async function makeInsteadAction(
  trialId: string,
  lineKey: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId, lineKey)
  const sent = readForm(form, InsteadForm)
  if (!sent.ok) return sent.answer
  const made = await makeInstead(theWorld(), member, trialId, lineKey, sent.value.proposal, sent.value.read === 'yes')
  if (!made.ok) return sent.refuse(made.reason === 'allergens-unread' ? 'read' : '', say[made.reason])
  redirect(`/trials/${made.value}`)
}
