import type { FormAnswer } from '@/app/ui/act-form'
import type { readForm } from '@/lib/forms/read-form'
import { sayPlanProblem, type PlanTyped } from '@/lib/forms/panel-form'
import type { TypedRefusal } from '@/lib/tasks/check-typed-plan'

type ReadPlan = Extract<ReturnType<typeof readForm<PlanTyped>>, { ok: true }>

const say: Record<TypedRefusal | 'not-a-draft', string> = {
  ...sayPlanProblem,
  'recipe-gone': 'This recipe is not there any more.',
  'trial-gone': 'One of these trials was archived meanwhile. Choose another.',
  'title-tells': 'Tasters would read it and know. Choose a title that tells nothing.',
  'not-a-draft': 'Somebody opened this panel meanwhile; its plan stands.',
}

/** A refusal of the task, beside the field it is about. */
export function answerPlan(
  read: ReadPlan,
  refused: { readonly reason: TypedRefusal | 'not-a-draft'; readonly detail?: Readonly<Record<string, string>> },
): FormAnswer {
  const name = refused.detail?.['name']
  const words = name === undefined ? say[refused.reason] : `This names the trial “${name}”. ${say[refused.reason]}`
  return read.refuse(refused.detail?.['field'] ?? '', words)
}
