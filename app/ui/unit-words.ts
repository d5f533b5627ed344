import { plain } from '@/lib/base/number-format'
import type { TypedAmount } from '@/lib/drink/trial'
import { isPart, isPercent, sheetChoices } from '@/lib/forms/unit-choices'

const shown = new Map(sheetChoices.map((unit) => [unit.value, unit.words]))

/** "2 presses of the pump" */
export const sayPresses = (presses: number) => `${plain(presses, 2)} ${presses === 1 ? 'press' : 'presses'} of the pump`

/** Presses of a pump that nobody measured. @param name  of what is in the bottle */
export const sayNoPump = (name = 'it') =>
  `Nobody has measured what one press of ${name} gives: say it on its page in the store, or type grams.`

export function unitWords(id: string): string {
  return shown.get(id) ?? id
}

/** An amount as it was typed, and what made grams of it: "30 ml at 1.031 g/ml", "12 % of the glass", "2 parts of 40 g". */
export function sayTyped({ amount, unit, density, partGrams }: TypedAmount): string {
  if (isPercent(unit)) return `${plain(amount, 3)}\u00a0% of the glass`
  if (isPart(unit)) {
    const parts = `${plain(amount, 3)} ${amount === 1 ? 'part' : 'parts'}`
    return partGrams === undefined ? parts : `${parts} of ${plain(partGrams, 3)} g`
  }
  return `${plain(amount, 3)} ${unitWords(unit)}${density === null ? '' : ` at ${plain(density, 3)} g/ml`}`
}
