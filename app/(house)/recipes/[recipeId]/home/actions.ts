'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { HomeAnswerForm, HomeKey, MakeHomeSheetForm, PastedForm } from '@/lib/forms/home-answer-form'
import { readField, readForm } from '@/lib/forms/read-form'
import { endHomeLink, makeHomeLink } from '@/lib/tasks/home/keep-home-link'
import { makeHomeSheet, withdrawHomeSheet } from '@/lib/tasks/home/keep-home-sheet'
import { pasteHomeAnswer, typeInHomeAnswer, type PasteRefusal } from '@/lib/tasks/home/take-in-answer'
import { theAddressFromHome } from '@/lib/tasks/house/public-address'
import { forgetHome } from '@/lib/tasks/privacy/forget-home'
import { theForgottenMarks } from '@/lib/tasks/privacy/the-marks'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const OFF = 'The café gives out no sheets for home. Its owner can switch that on, on the team page.'

export async function makeHomeSheetAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, MakeHomeSheetForm)
  if (!sent.ok) return sent.answer
  const made = await makeHomeSheet(theWorld(), member, recipeId, sent.value.trialId)
  if (!made.ok) return sent.refuse('trialId', made.reason === 'off' ? OFF : 'This trial is not there any more.')
  redirect(`/recipes/${recipeId}/home/${made.value.id}`)
}

export async function withdrawHomeSheetAction(recipeId: string, sheetId: string): Promise<void> {
  const member = await requireMember('recipe:write', recipeId, sheetId)
  await withdrawHomeSheet(theWorld(), member, sheetId)
  revalidatePath(`/recipes/${recipeId}/home`)
}

export async function makeHomeLinkAction(
  recipeId: string,
  sheetId: string,
): Promise<{ path: string } | { problem: string }> {
  const member = await requireMember('recipe:write', recipeId, sheetId)
  if (theAddressFromHome() === null)
    return { problem: 'Nobody at home can reach this house: that takes a public https address.' }
  const made = await makeHomeLink(theWorld(), member, sheetId)
  if (!made.ok) return { problem: made.reason === 'off' ? OFF : 'This sheet is not there any more, or was withdrawn.' }
  revalidatePath(`/recipes/${recipeId}/home/${sheetId}`)
  return { path: `/home/${made.value}` }
}

export async function endHomeLinkAction(recipeId: string, sheetId: string): Promise<void> {
  const member = await requireMember('recipe:write', recipeId, sheetId)
  await endHomeLink(theWorld(), member, sheetId)
  revalidatePath(`/recipes/${recipeId}/home/${sheetId}`)
}

const sayPaste: Record<PasteRefusal, string> = {
  'no-answer':
    'No answer is in this text: it begins with “== Answer from home”. Copy everything from that line to the line “== End”.',
  'other-form': 'This answer was written by a newer version of the file than this house can read.',
  'cut-off': 'The end is missing: the last line says “== End, check” and eight signs. Copy all of it.',
  damaged: 'Something in this text is not as it was written: its sum does not agree. Copy it again, untouched.',
  'too-long': 'This is far longer than an answer from home. Paste one answer at a time.',
  'nothing-said': 'Nothing is said in this answer.',
  off: OFF,
  'unknown-sheet': 'This answers a sheet that this café did not give out.',
  'other-recipe': 'This answers a sheet of another recipe.',
}

export async function pasteHomeAnswerAction(
  recipeId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, PastedForm)
  if (!sent.ok) return sent.answer
  const taken = await pasteHomeAnswer(theWorld(), member, recipeId, sent.value.pasted)
  if (!taken.ok) {
    const of = taken.detail?.['recipe']
    return sent.refuse('pasted', `${sayPaste[taken.reason]}${of ? ` Paste it there: ${of}.` : ''}`)
  }
  redirect(`/recipes/${recipeId}/home?taken=${taken.value}`)
}

export async function typeInHomeAnswerAction(
  recipeId: string,
  sheetId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId, sheetId)
  const sent = readForm(form, HomeAnswerForm)
  if (!sent.ok) return sent.answer
  const key = HomeKey.safeParse(readField(form, 'key'))
  if (!key.success) return sent.refuse('', 'This page was not whole. Load it again.')
  const taken = await typeInHomeAnswer(theWorld(), member, sheetId, key.data, sent.value)
  if (!taken.ok) return sent.refuse('', taken.reason === 'off' ? OFF : 'This sheet is not there any more.')
  redirect(`/recipes/${recipeId}/home?taken=${taken.value}`)
}

/** @param words  "words": what they wrote goes as well as their name */
export async function forgetHomeAction(recipeId: string, answerId: string, words: string): Promise<void> {
  const member = await requireMember('recipe:write', recipeId, answerId, words)
  await forgetHome(theWorld(), theForgottenMarks(), member, answerId, words === 'words')
  revalidatePath(`/recipes/${recipeId}/home`)
}
