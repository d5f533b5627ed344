'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { IngredientForm, priceForm } from '@/lib/forms/ingredient-form'
import { vesselForm } from '@/lib/forms/preparation-form'
import { readForm } from '@/lib/forms/read-form'
import { addPriceOf, type PriceRefusal } from '@/lib/tasks/store/add-price'
import { archiveIngredient, correctIngredient, enterIngredient } from '@/lib/tasks/store/keep-ingredient'
import { archiveVessel, correctVessel, enterVessel } from '@/lib/tasks/store/keep-vessel'
import { ingredientMark, vesselMark } from '@/lib/tasks/opened-with'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { readVessel } from '@/lib/tasks/store/read-vessel'
import { strikePrice } from '@/lib/tasks/store/strike-price'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayCalendarDay } from '@/app/ui/moment'
import { ingredientDefaults } from './ingredients/[ingredientId]/ingredient-defaults'
import { vesselDefaults } from './vessels/vessel-defaults'

const say = {
  'name-taken': 'Something of this name stands in the store already.',
  gone: 'This is not in the store any more.',
  'currency-changed': 'The café counts in another currency since this page was opened. Load it again.',
} as const

type Refused<Reason> = { readonly reason: Reason; readonly detail?: Readonly<Record<string, string>> }

/** Why a price was not taken, and the field that says so. */
function sayPrice({ reason, detail = {} }: Refused<PriceRefusal>): [field: string, words: string] {
  const words: Record<PriceRefusal, [string, string]> = {
    gone: ['', say.gone],
    'density-missing': ['packUnit', 'The density of this ingredient is not known: give the pack in grams.'],
    'not-yet': [
      'since',
      `This day has not come: it is ${sayCalendarDay(detail['today'] ?? '')}. Add the price on its day.`,
    ],
    'currency-changed': ['price', say['currency-changed']],
    'too-little': ['pack', 'This is less than a milligram: too little to be kept.'],
    'too-much': ['pack', 'This is more than two tonnes.'],
  }
  return words[reason]
}

export async function enterIngredientAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write')
  const sent = readForm(form, IngredientForm)
  if (!sent.ok) return sent.answer
  const entered = await enterIngredient(theWorld(), member, sent.value)
  if (!entered.ok) return sent.refuse('name', say['name-taken'])
  redirect(`/store/ingredients/${entered.value}`)
}

export async function correctIngredientAction(id: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', id)
  const sent = readForm(form, IngredientForm)
  if (!sent.ok) return sent.answer
  const corrected = await correctIngredient(theWorld(), member, id, sent.value, sent.opened)
  if (!corrected.ok && corrected.reason !== 'saved-elsewhere')
    return sent.refuse(corrected.reason === 'gone' ? '' : 'name', say[corrected.reason])
  const now = corrected.ok ? null : await readIngredient(theWorld(), member, id)
  const both = now && sent.offer(ingredientDefaults(now), ingredientMark(now.row))
  if (both) return both
  redirect(`/store/ingredients/${id}`)
}

export async function archiveIngredientAction(id: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', id)
  await archiveIngredient(theWorld(), member, id, archived)
  redirect(`/store/ingredients/${id}`)
}

export async function addPriceAction(id: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', id)
  const sent = readForm(form, priceForm(member.cafe))
  if (!sent.ok) return sent.answer
  const added = await addPriceOf(theWorld(), member, id, sent.value)
  if (!added.ok) return sent.refuse(...sayPrice(added))
  redirect(`/store/ingredients/${id}`)
}

export async function strikePriceAction(id: string, priceId: string): Promise<void> {
  const member = await requireMember('recipe:write', id, priceId)
  await strikePrice(theWorld(), member, id, priceId)
  redirect(`/store/ingredients/${id}`)
}

export async function enterVesselAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write')
  const sent = readForm(form, vesselForm(member.cafe))
  if (!sent.ok) return sent.answer
  const entered = await enterVessel(theWorld(), member, sent.value)
  if (!entered.ok) return sent.refuse(entered.reason === 'name-taken' ? 'name' : 'pack', say[entered.reason])
  redirect('/store')
}

export async function correctVesselAction(id: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', id)
  const sent = readForm(form, vesselForm(member.cafe))
  if (!sent.ok) return sent.answer
  const corrected = await correctVessel(theWorld(), member, id, sent.value, sent.opened)
  if (!corrected.ok && corrected.reason !== 'saved-elsewhere')
    return sent.refuse(
      { gone: '', 'name-taken': 'name', 'currency-changed': 'pack' }[corrected.reason],
      say[corrected.reason],
    )
  const now = corrected.ok ? null : await readVessel(theWorld(), member, id)
  const both = now && sent.offer(vesselDefaults(now, member.cafe), vesselMark(now, member.cafe))
  if (both) return both
  redirect('/store')
}

export async function archiveVesselAction(id: string, archived: boolean): Promise<void> {
  const member = await requireMember('recipe:write', id)
  await archiveVessel(theWorld(), member, id, archived)
  redirect(`/store/vessels/${id}`)
}
