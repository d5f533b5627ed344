'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { DecisionForm } from '@/lib/forms/decision-form'
import { readForm } from '@/lib/forms/read-form'
import { decide, type DecisionRefusal } from '@/lib/tasks/result/decide'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

const DECIDED_SINCE =
  'Something was decided since you opened this: it stands in the history of the recipe. If you mean to decide again, do.'

const say: Record<Exclude<DecisionRefusal, 'decided-since'>, { field: string; words: string }> = {
  'not-closed': { field: '', words: 'The panel is not closed.' },
  'trial-not-served': { field: 'trialId', words: 'This trial was not poured in this panel.' },
  'no-house-recipe': { field: 'kind', words: 'There is no house recipe yet that could be kept.' },
}

export async function decideAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('decide', panelId)
  const sent = readForm(form, DecisionForm)
  if (!sent.ok) return sent.answer
  const decided = await decide(theWorld(), member, panelId, sent.value, sent.opened)
  if (!decided.ok) {
    if (decided.reason === 'decided-since') return sent.tell(DECIDED_SINCE, decided.detail?.['opened'] ?? '')
    const { field, words } = say[decided.reason]
    return sent.refuse(field, words)
  }
  redirect(`/recipes/${decided.value.recipeId}/why`)
}
