import type { FormAnswer } from '@/app/ui/act-form'
import type { readForm } from '@/lib/forms/read-form'
import { sayPlanProblem, type PlanTyped } from '@/lib/forms/panel-form'
import type { TypedRefusal } from '@/lib/tasks/plan/check-typed-plan'
import type { CupLook } from '@/lib/tasks/plan/look-at-cups'
import { isLook, sayLook } from './say-look'

type ReadPlan = Extract<ReturnType<typeof readForm<PlanTyped>>, { ok: true }>

const say: Record<Exclude<TypedRefusal, CupLook['problem']> | 'not-a-draft', string> = {
  ...sayPlanProblem,
  'recipe-gone': 'This recipe is not there any more.',
  'trial-gone': 'One of these trials was archived meanwhile. Choose another.',
  'not-a-draft': 'Somebody opened this panel meanwhile; its plan stands.',
}

/** A refusal of the task, beside the field it is about. */
export function answerPlan(
  read: ReadPlan,
  refused: { readonly reason: TypedRefusal | 'not-a-draft'; readonly detail?: Readonly<Record<string, string>> },
): FormAnswer {
  return read.refuse(refused.detail?.['field'] ?? '', wordsFor(refused.reason, refused.detail))
}

function wordsFor(reason: TypedRefusal | 'not-a-draft', names: Readonly<Record<string, string>> | undefined): string {
  if (isLook(reason)) return sayLook(reason, names ?? {})
  return say[reason]
}
