import { sayPlanProblem } from '@/lib/forms/panel-form'
import type { OpenRefusal } from '@/lib/tasks/pour/open-panel'
import type { CupLook } from '@/lib/tasks/plan/look-at-cups'
import { isLook, sayLook } from '../say-look'

const say: Record<Exclude<OpenRefusal, CupLook['problem']>, string> = {
  ...sayPlanProblem,
  'not-found': 'This panel is not there any more.',
  'not-a-draft': 'Somebody opened it a moment before you. Load the page again.',
  'trial-archived': 'was archived meanwhile. Change the plan.',
  'nothing-in-cup': 'has no ingredients, so nobody can say what is in it. Change the plan or fill in the trial.',
  'cannot-be-worked-out': 'cannot be worked out, so it cannot be frozen. Mend its sheet first:',
  'batch-past-date': 'Say first that another batch is poured, which is in date, in the place of:',
  'no-batch-in-date': 'No batch is in date: make one first, or name something else on the sheet, of:',
  'brix-not-known':
    'Another batch is poured than the sheet was written with, and the °Bx of one of them is not known. Read or weigh it, or write the dose anew:',
  'labels-unread': 'Read these labels for allergens first; each links to its page below:',
}

export function sayOpenRefusal(reason: OpenRefusal, detail: Readonly<Record<string, string>> | undefined): string {
  if (isLook(reason)) return sayLook(reason, detail ?? {})
  const more = detail?.['message'] === undefined ? '' : ` ${detail['message']}`
  if (detail?.['name'] !== undefined) return `“${detail['name']}” ${say[reason]}${more}`
  return detail?.['names'] === undefined ? say[reason] : `${say[reason]} ${detail['names']}.`
}
