import { isVolumeUnit, PUMP, UNITS } from '@/lib/drink/unit'

/** The units an amount may be typed in, as a form offers them. Fluid ounces always say whose. */
export const unitChoices = UNITS.map((unit) => ({ value: unit.id as string, words: unit.shown }))

/** The same, and presses of the pump on the bottle: of these each part has its own size. */
export const doseChoices = [...unitChoices, { value: PUMP, words: 'pump (one press)' }]

export const isPump = (unit: string) => unit === PUMP

/** The units that need a density to become grams. */
export const volumeUnits: ReadonlySet<string> = new Set(
  doseChoices.flatMap(({ value }) => (isVolumeUnit(value) ? [value] : [])),
)
