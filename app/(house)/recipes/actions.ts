'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readForm } from '@/lib/forms/read-form'
import { CopyRecipeForm, HouseRecipeForm, RecipeForm, recipeMoneyForm } from '@/lib/forms/recipe-form'
import { FirstTrialForm, inMoneyOf } from '@/lib/forms/trial-form'
import { copyRecipe } from '@/lib/tasks/recipe/copy-recipe'
import {
  adoptWithoutPanel,
  archiveRecipe,
  changeRecipeMoney,
  changeRecipeWords,
  startRecipe,
} from '@/lib/tasks/recipe/keep-recipe'
import { recipeMoneyMark, recipeWordsMark } from '@/lib/tasks/opened-with'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { recordFirstTrial } from '@/lib/tasks/trial/record-trial'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { besideLine } from '../trials/say-content'
import { moneyDefaults } from './[recipeId]/money/money-defaults'

const sayOtherCoffee =
  'This coffee is not made by this method: grounds are brewed, instant coffee dissolves. Choose another of the two.'
const gone = 'This recipe is not there any more.'
const nameTaken = 'A recipe of this name is there already.'
const sayOtherCurrency = 'The café counts in another currency since this page was opened. Load it again.'

export async function startRecipeAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write')
  const sent = readForm(form, RecipeForm)
  if (!sent.ok) return sent.answer
  const started = await startRecipe(theWorld(), member, sent.value)
  if (!started.ok) return sent.refuse('name', nameTaken)
  redirect(`/recipes/${started.value}/first-trial`)
}

export async function changeRecipeAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, RecipeForm)
  if (!sent.ok) return sent.answer
  const changed = await changeRecipeWords(theWorld(), member, recipeId, sent.value, sent.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere')
    return changed.reason === 'gone' ? sent.refuse('', gone) : sent.refuse('name', nameTaken)
  const now = changed.ok ? null : await readRecipe(theWorld(), member, recipeId)
  const both = now && sent.offer({ name: now.recipe.name, note: now.recipe.note ?? '' }, recipeWordsMark(now.recipe))
  if (both) return both
  redirect(`/recipes/${recipeId}`)
}

export async function copyRecipeAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, CopyRecipeForm)
  if (!sent.ok) return sent.answer
  const copied = await copyRecipe(theWorld(), member, recipeId, sent.value)
  if (!copied.ok) {
    const where: Readonly<Record<typeof copied.reason, [field: string, words: string]>> = {
      gone: ['', gone],
      'name-taken': ['name', nameTaken],
      'trial-gone': ['trials', 'One of the trials is not there any more. Please choose again.'],
    }
    return sent.refuse(...where[copied.reason])
  }
  redirect(`/recipes/${copied.value}`)
}

export async function firstTrialAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, FirstTrialForm.superRefine(inMoneyOf(member.cafe)))
  if (!sent.ok) return sent.answer
  const recorded = await recordFirstTrial(theWorld(), member, recipeId, sent.value)
  if (!recorded.ok) {
    const { reason, detail } = recorded
    if (reason === 'recipe-gone') return sent.refuse('', gone)
    if (reason === 'coffee-not-for-method') return sent.refuse('lines[0].part', sayOtherCoffee)
    return sent.refuse(...besideLine(reason, detail))
  }
  redirect(`/trials/${recorded.value}`)
}

export async function changeMoneyAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', recipeId)
  const sent = readForm(form, recipeMoneyForm(member.cafe))
  if (!sent.ok) return sent.answer
  const changed = await changeRecipeMoney(theWorld(), member, recipeId, sent.value, sent.opened)
  if (!changed.ok && changed.reason !== 'saved-elsewhere')
    return sent.refuse('', changed.reason === 'gone' ? gone : sayOtherCurrency)
  const now = changed.ok ? null : await readRecipe(theWorld(), member, recipeId)
  const both = now && sent.offer(moneyDefaults(now.recipe, member.cafe), recipeMoneyMark(now.recipe, member.cafe))
  if (both) return both
  redirect(`/recipes/${recipeId}`)
}

export async function adoptAction(recipeId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('decide', recipeId)
  const sent = readForm(form, HouseRecipeForm)
  if (!sent.ok) return sent.answer
  const adopted = await adoptWithoutPanel(theWorld(), member, recipeId, sent.value)
  if (!adopted.ok) {
    const words: Readonly<Record<typeof adopted.reason, string>> = {
      gone: 'This trial is not there any more.',
      'cannot-be-worked-out': `It cannot be worked out, so it cannot be frozen: ${adopted.detail?.['message'] ?? ''} Mend its sheet first.`,
    }
    return sent.refuse('trialId', words[adopted.reason])
  }
  redirect(`/recipes/${recipeId}/why`)
}

export async function archiveRecipeAction(recipeId: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', recipeId)
  await archiveRecipe(theWorld(), member, recipeId, archived)
  revalidatePath(`/recipes/${recipeId}`)
}
