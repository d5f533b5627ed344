import { demand } from '@/lib/base/demand'

const SUCROSE_MOLAR = 342.3
const WATER_MOLAR = 18.015
const NORRISH_SUCROSE = -6.47

/**
 * How free is the water in a syrup to microbes?
 *
 *     aw = X_w · exp(K X_s²),   X mole fractions of water and sucrose,   K = −6.47
 *
 * @param brix  0 to below 100
 * @throws RangeError  Brix outside its range
 *
 * Source   Norrish (1966) equation; K for sucrose from memory
 * Checked  test/reference/norrish-1966-water-activity.test.ts
 * Limits   Pure sucrose in water. Fruit, dairy, herb or tea infusions are judged otherwise, whatever this says.
 */
export function waterActivity(brix: number): number {
  demand(brix >= 0 && brix < 100, `Brix must lie between 0 and below 100, got ${brix}`)
  const sucrose = brix / SUCROSE_MOLAR
  const water = (100 - brix) / WATER_MOLAR
  const share = sucrose / (sucrose + water)
  return (1 - share) * Math.exp(NORRISH_SUCROSE * share ** 2)
}

/** How a syrup was made, as the screening table asks. `acidity` is its pH, null when not measured. */
export type SyrupMaking = {
  readonly heated: boolean
  readonly packagedHot: boolean
  readonly acidity: number | null
  readonly infused: boolean
}

/** What the table says: no time and temperature control asked, or keep it cold and ask. */
export type KeepingScreen = 'control-not-asked' | 'assessment-needed'

/**
 * Does the US screening table ask for time and temperature control?
 *
 *     not packaged hot: aw < 0.88 never;  to 0.90 unless pH > 5.0;  to 0.92 unless pH > 4.6;  above, only if pH < 4.2
 *     packaged hot:     aw ≤ 0.92 never;  to 0.95 unless pH > 5.6;  above, only if pH ≤ 4.6
 *
 * @param activity  aw, above 0 to 1
 * @throws RangeError  a water activity outside its range
 *
 * Source   US FDA Food Code, tables A and B on the interaction of pH and water activity
 * Checked  test/unit/drink/water-activity.test.ts
 * Limits   A screen, not a licence: local rules decide. An unmeasured pH counts as not acid. Infusions always need asking.
 */
export function keepingScreen(activity: number, making: SyrupMaking): KeepingScreen {
  demand(activity > 0 && activity <= 1, `water activity must lie between 0 and 1, got ${activity}`)
  if (making.infused) return 'assessment-needed'
  const acidity = making.acidity ?? 7
  const asked = making.heated && making.packagedHot ? packagedHotAsks(activity, acidity) : openAsks(activity, acidity)
  return asked ? 'assessment-needed' : 'control-not-asked'
}

function packagedHotAsks(activity: number, acidity: number): boolean {
  if (activity <= 0.92) return false
  return activity <= 0.95 ? acidity > 5.6 : acidity > 4.6
}

function openAsks(activity: number, acidity: number): boolean {
  if (activity < 0.88) return false
  if (activity <= 0.9) return acidity > 5
  return activity <= 0.92 ? acidity > 4.6 : acidity >= 4.2
}

/** Days that food which can spoil is kept cold, the day it was made being the first. US FDA Food Code 3-501.17. */
export const DATE_MARK_DAYS = 7

const KEEPS_LONGER_DAYS = 28

/**
 * How many days does such a syrup keep at most, cold and clean?
 *
 *     7 where a food-safety assessment would be asked for, else 28
 *
 * @param brix  0 to below 100
 *
 * Source   US FDA Food Code, 7-day date mark; four weeks for 60–65 Brix are common practice
 * Checked  test/unit/drink/water-activity.test.ts
 */
export function keepingDays(brix: number, making: SyrupMaking): number {
  return keepingScreen(waterActivity(brix), making) === 'assessment-needed' ? DATE_MARK_DAYS : KEEPS_LONGER_DAYS
}

/**
 * What should be written on the bottle?
 *
 * @param brix  0 to below 100
 * @returns     two sentences; the second always sends the reader to the local rules
 *
 * Source   US FDA Food Code (screening table, 7-day date mark); the weeks for 60–65 Brix are common practice
 * Checked  test/unit/drink/water-activity.test.ts
 */
export function keepingNote(brix: number, making: SyrupMaking): string {
  const rules = 'Follow your local food-safety rules; this does not replace a licensed food-safety professional.'
  const label = 'Clean bottle, batch number, date made, discard date.'
  if (making.infused) return `Infused: treat as perishable, keep at 5 °C or below, 7 days at most. ${label} ${rules}`
  if (keepingDays(brix, making) === DATE_MARK_DAYS) {
    return `Dilute enough to spoil: keep at 5 °C or below, 7 days at most. ${label} ${rules}`
  }
  const moulds = 'Yeasts and moulds that like sugar can still grow'
  return `${moulds}: keep cold, 2 to 4 weeks, discard if it clouds, foams or smells of drink. ${label} ${rules}`
}
