import { plain } from '@/lib/base/number-format'
import { doseChoices } from '@/lib/forms/unit-choices'

const shown = new Map(doseChoices.map((unit) => [unit.value, unit.words]))

/** "2 presses of the pump" */
export const sayPresses = (presses: number) => `${plain(presses, 2)} ${presses === 1 ? 'press' : 'presses'} of the pump`

/** Presses of a pump that nobody measured. @param name  of what is in the bottle */
export const sayNoPump = (name = 'it') =>
  `Nobody has measured what one press of ${name} gives: say it on its page in the store, or type grams.`

export function unitWords(id: string): string {
  return shown.get(id) ?? id
}
