import { isVolumeUnit, PART, PERCENT, PUMP, UNITS } from '@/lib/drink/unit'

/** The units an amount may be typed in, as a form offers them. Fluid ounces always say whose. */
export const unitChoices = UNITS.map((unit) => ({ value: unit.id as string, words: unit.shown }))

/** The same, and presses of the pump on the bottle: of these each part has its own size. */
export const doseChoices = [...unitChoices, { value: PUMP, words: 'pump (one press)' }]

/** The same, and what says something on the sheet of a drink alone: a share of all of it, a part of a ratio. */
export const sheetChoices = [...doseChoices, { value: PERCENT, words: '% of glass' }, { value: PART, words: 'part' }]

export const isPercent = (unit: string) => unit === PERCENT
export const isPart = (unit: string) => unit === PART
export const isPump = (unit: string) => unit === PUMP

/** The units that need a density to become grams. */
export const volumeUnits: ReadonlySet<string> = new Set(
  doseChoices.flatMap(({ value }) => (isVolumeUnit(value) ? [value] : [])),
)
