'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { HouseRecipeForm, RecipeForm, recipeMoneyForm } from '@/lib/forms/recipe-form'
import { FirstTrialForm } from '@/lib/forms/trial-form'
import { adoptWithoutPanel, archiveRecipe, changeRecipeMoney, startRecipe } from '@/lib/tasks/keep-recipe'
import { recordFirstTrial } from '@/lib/tasks/record-trial'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const gone = 'This recipe is not there any more.'
const sayOtherCurrency = 'The café counts in another currency since this page was opened. Load it again.'

export async function startRecipeAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write')
  const sent = readForm(form, RecipeForm)
  if (!sent.ok) return sent.answer
  const started = await startRecipe(theWorld(), member, sent.value)
  if (!started.ok) return sent.refuse('name', 'A recipe of this name is there already.')
  redirect(`/recipes/${started.value}/first-trial`)
}

export async function firstTrialAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, FirstTrialForm)
  if (!sent.ok) return sent.answer
  const recorded = await recordFirstTrial(theWorld(), member, recipeId, sent.value)
  if (!recorded.ok) {
    const words = {
      'recipe-gone': gone,
      'part-gone': 'One of the ingredients was put aside in the meantime. Please choose again.',
      'too-little': 'An amount is less than a milligram: too little to be kept.',
      'too-much': 'An amount is more than two tonnes.',
      'density-missing': `${recorded.detail?.['name'] ?? 'The milk'} was typed as a volume, and its density is not known. Enter it in the store first, or write the whole sheet in grams.`,
    } as const
    return sent.refuse(recorded.reason === 'density-missing' ? 'milkAmount' : '', words[recorded.reason])
  }
  redirect(`/trials/${recorded.value}`)
}

export async function changeMoneyAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, recipeMoneyForm(member.cafe))
  if (!sent.ok) return sent.answer
  const changed = await changeRecipeMoney(theWorld(), member, recipeId, sent.value)
  if (!changed.ok) return sent.refuse('', changed.reason === 'gone' ? gone : sayOtherCurrency)
  redirect(`/recipes/${recipeId}`)
}

export async function adoptAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('decide', recipeId)
  const sent = readForm(form, HouseRecipeForm)
  if (!sent.ok) return sent.answer
  const adopted = await adoptWithoutPanel(theWorld(), member, recipeId, sent.value)
  if (!adopted.ok) return sent.refuse('trialId', 'This trial is not there any more.')
  redirect(`/recipes/${recipeId}/why`)
}

export async function archiveRecipeAction(recipeId: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', recipeId)
  await archiveRecipe(theWorld(), member, recipeId, archived)
  redirect('/recipes')
}
