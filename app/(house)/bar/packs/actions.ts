'use server'

import { redirect } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { PackForm } from '@/lib/forms/pack-form'
import { readForm } from '@/lib/forms/read-form'
import { finishPack, openPack } from '@/lib/tasks/bar/open-pack'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

export async function openPackAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('bar:make')
  const sent = readForm(form, PackForm)
  if (!sent.ok) return sent.answer
  const opened = await openPack(theWorld(), member, sent.value, canDo(member, 'recipe:read'))
  if (!opened.ok) {
    const where: Readonly<Record<typeof opened.reason, [field: string, words: string]>> = {
      gone: ['ingredient', 'This was put aside in the meantime. Please choose again.'],
      'opened-no-time': ['openedAt', 'Type a day and a time.'],
      'discard-no-time': ['discardAt', 'Type a day and a time.'],
      'not-yet': ['openedAt', 'That time is still to come: a pack is written down when it is opened.'],
      'discard-too-early': ['discardAt', 'It is discarded after it is opened.'],
    }
    return sent.refuse(...where[opened.reason])
  }
  redirect(`/bar/packs/${opened.value}`)
}

export async function packUsedUpAction(packId: string): Promise<void> {
  const member = await requireMember('bar:make', packId)
  // gone already is what was wanted
  await finishPack(theWorld(), member, packId, 'used-up', canDo(member, 'recipe:read'))
  redirect('/bar/packs')
}

export async function packThrownAwayAction(packId: string): Promise<void> {
  const member = await requireMember('bar:make', packId)
  await finishPack(theWorld(), member, packId, 'thrown-away', canDo(member, 'recipe:read'))
  redirect('/bar/packs')
}
