import { UNITS } from '@/lib/drink/unit'

/** The units an amount may be typed in, as a form offers them. Fluid ounces always say whose. */
export const unitChoices = UNITS.map((unit) => ({ value: unit.id as string, words: unit.shown }))

/** The units that need a density to become grams. */
export const volumeUnits: ReadonlySet<string> = new Set(UNITS.filter(({ of }) => of === 'volume').map(({ id }) => id))
