import { unitChoices } from '@/lib/forms/unit-choices'

const shown = new Map(unitChoices.map((unit) => [unit.value, unit.words]))

export function unitWords(id: string): string {
  return shown.get(id) ?? id
}
