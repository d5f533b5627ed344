'use server'

import { revalidatePath } from 'next/cache'
import { requireMember } from '@/lib/auth/guard'
import { AlternativesForm, LevelForm } from '@/lib/forms/ladder-form'
import { readForm } from '@/lib/forms/read-form'
import { chooseAlternatives, markTasted, nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { alternativesAsTyped } from './alternatives-as-typed'

const gone = 'This is not there any more.'
const refusals: Readonly<Record<'gone' | 'poured', string>> = {
  gone,
  poured: 'This trial was poured at this level, so what it used stays. Make another trial from it instead.',
}

export async function nameLevelAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, LevelForm)
  if (!sent.ok) return sent.answer
  const named = await nameCostLevel(theWorld(), member, recipeId, sent.value.name)
  if (!named.ok) return sent.refuse('name', named.reason === 'gone' ? gone : 'A level of this name is there already.')
  revalidatePath(`/recipes/${recipeId}/levels`)
  return null
}

export async function alternativesAction(
  recipeId: string,
  trialId: string,
  levelId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId, trialId, levelId)
  const sent = readForm(form, AlternativesForm)
  if (!sent.ok) return sent.answer
  const chosen = await chooseAlternatives(theWorld(), member, trialId, levelId, sent.value.lines, sent.opened)
  if (!chosen.ok && chosen.reason !== 'saved-elsewhere') return sent.refuse('', refusals[chosen.reason])
  // Also after a refusal: the page's lines may be others now.
  revalidatePath(`/recipes/${recipeId}/levels`)
  const now = chosen.ok ? null : await readCostLevels(theWorld(), member, recipeId, trialId)
  const level = now?.levels.find((one) => one.id === levelId)
  const both = now && level && sent.offer(alternativesAsTyped(now, level.id), level.mark)
  if (both) return both
  return null
}

export async function tastedAction(recipeId: string, trialId: string, levelId: string): Promise<void> {
  const member = await requireMember('recipe:write', recipeId, trialId, levelId)
  await markTasted(theWorld(), member, trialId, levelId)
  revalidatePath(`/recipes/${recipeId}/levels`)
}
