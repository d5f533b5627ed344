'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readField, readFile } from '@/lib/forms/read-form'
import { keepPhoto, takePhotoOut } from '@/lib/tasks/photo/keep-photo'
import { theWorld } from '@/lib/tasks/world'

const longestCaption = 200

/** What was refused goes back in the address, with the words typed beside: a file can not be given back to its field. */
export async function addPhotoAction(recipeId: string, form: FormData): Promise<void> {
  const member = await requireMember('recipe:write', recipeId)
  const here = `/recipes/${recipeId}/photos`
  const [caption, trialId] = [readField(form, 'caption').trim().slice(0, longestCaption), readField(form, 'trial')]
  const file = readFile(form, 'file')
  const back = (refused: string) =>
    `${here}?${new URLSearchParams({ refused, caption, trial: trialId }).toString()}#file`
  if (!file) redirect(back('missing'))
  const kept = await keepPhoto(
    theWorld(),
    member,
    { recipeId, trialId: trialId || null },
    { file: new Uint8Array(await file.arrayBuffer()), caption: caption || null },
  )
  redirect(kept.ok ? here : back(kept.reason))
}

export async function takePhotoOutAction(recipeId: string, photoId: string): Promise<void> {
  const member = await requireMember('recipe:write', recipeId, photoId)
  await takePhotoOut(theWorld(), member, photoId)
  redirect(`/recipes/${recipeId}/photos`)
}
