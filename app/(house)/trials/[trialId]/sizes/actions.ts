'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { sizePriceForm } from '@/lib/forms/recipe-form'
import { readForm } from '@/lib/forms/read-form'
import { readSizesForm, usualSizes } from '@/lib/forms/sizes-form'
import { sizePriceMark } from '@/lib/tasks/opened-with'
import { keepSizePrice, priceUsualSize, type SizePriceRefusal } from '@/lib/tasks/recipe/keep-size-price'
import { keepSizeShares } from '@/lib/tasks/recipe/keep-size-shares'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'
import { sizePriceDefaults } from './size-price-defaults'

const say: Readonly<Record<Exclude<SizePriceRefusal, 'saved-elsewhere'>, string>> = {
  gone: 'This vessel or this recipe is not there any more.',
  'currency-changed': 'The café counts in another currency since this page was opened. Load it again.',
}

/** Keeps what is typed as the shares of every size of the recipe, and shows the page again: a slip stands beside its field. */
export async function keepSharesAction(trialId: string, form: FormData): Promise<void> {
  const member = await requireMember('recipe:write', trialId)
  // an act may be called with anything in the place of its form
  const typed = form instanceof FormData ? form : new FormData()
  const said = (name: string) => {
    const value = typed.get(name)
    return typeof value === 'string' ? value : ''
  }
  const query = { ice: said('ice'), coffee: said('coffee') }
  const { problems, shares } = readSizesForm(query)
  const isRight = Object.keys(problems).length === 0
  if (isRight) await keepSizeShares(theWorld(), member, trialId, shares)
  redirect(`/trials/${trialId}/sizes${isRight ? '' : `?${new URLSearchParams(query).toString()}`}`)
}

/** Keeps what a size sells for: of the recipe that the trial is of. */
export async function sizePriceAction(
  trialId: string,
  vesselId: string,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('recipe:write', trialId, vesselId)
  const sent = readForm(form, sizePriceForm(member.cafe))
  if (!sent.ok) return sent.answer
  const read = async () => readSizes(theWorld(), member, trialId, { ice: null, coffee: null })
  const recipeId = (await read())?.sheet.trial.recipeId
  if (recipeId === undefined) return sent.refuse('price', say.gone)
  const usual = usualSizes.find((ounces) => vesselId === `usual-${ounces}`)
  const kept =
    usual === undefined
      ? await keepSizePrice(theWorld(), member, { recipeId, vesselId }, sent.value, sent.opened)
      : await priceUsualSize(theWorld(), member, { recipeId, ounces: usual }, sent.value)
  if (!kept.ok && kept.reason !== 'saved-elsewhere') return sent.refuse('price', say[kept.reason])
  if (!kept.ok) {
    const now = (await read())?.sizes.find(({ priced }) => priced?.vesselId === vesselId)?.priced?.priceMinor ?? null
    const both = sent.offer(sizePriceDefaults(now, member.cafe), sizePriceMark(now, member.cafe))
    if (both) return both
  }
  revalidatePath(`/trials/${trialId}/sizes`)
  return null
}
