import { printed, PUMP_ML, SPOON_GRAMS } from '@/lib/forms/number-fields'

interface Measured {
  readonly pumpUl: number | null
  readonly spoonMg: number | null
}

const thousandth = (value: number | null) => (value === null ? null : value / 1000)

/** Pump and teaspoon as their form fields hold them. */
export function doseDefaults({ pumpUl, spoonMg }: Measured) {
  return { pump: printed(thousandth(pumpUl), PUMP_ML), spoon: printed(thousandth(spoonMg), SPOON_GRAMS) }
}
