import { demand } from '@/lib/base/demand'
import { no, ok } from '@/lib/base/result'
import type { Result } from '@/lib/base/result'

/** A unit of mass or of volume; `size` is exact, in grams or in millilitres. */
export type Unit = {
  readonly id: UnitId
  readonly shown: string
  readonly of: 'mass' | 'volume'
  readonly size: number
}

/** Every unit an amount may be typed in. Ounces and spoons always say which kind. */
export type UnitId =
  | 'g'
  | 'kg'
  | 'mg'
  | 'avoirdupois-oz'
  | 'lb'
  | 'ml'
  | 'l'
  | 'us-fl-oz'
  | 'imp-fl-oz'
  | 'metric-tsp'
  | 'metric-tbsp'
  | 'us-tsp'
  | 'us-tbsp'
  | 'us-cup'
  | 'us-pint'
  | 'us-gallon'
  | 'imp-pint'

const US_GALLON = 231 * 2.54 ** 3
const IMPERIAL_GALLON = 4546.09

/**
 * What is each unit worth?
 *
 *     US gallon = 231 in³, inch = 2.54 cm, imperial gallon = 4.54609 l, pound = 453.59237 g; all exact
 *
 * Source   NIST Handbook 44, Appendix C; NIST SP 811, Appendix B
 * Checked  test/reference/nist-2008-units.test.ts
 * Limits   Metric spoons are 5 and 15 ml; an Australian tablespoon of 20 ml is not offered.
 */
export const UNITS: readonly Unit[] = [
  { id: 'g', shown: 'g', of: 'mass', size: 1 },
  { id: 'kg', shown: 'kg', of: 'mass', size: 1000 },
  { id: 'mg', shown: 'mg', of: 'mass', size: 0.001 },
  { id: 'avoirdupois-oz', shown: 'oz by mass (avoirdupois)', of: 'mass', size: 28.349523125 },
  { id: 'lb', shown: 'lb', of: 'mass', size: 453.59237 },
  { id: 'ml', shown: 'ml', of: 'volume', size: 1 },
  { id: 'l', shown: 'l', of: 'volume', size: 1000 },
  { id: 'us-fl-oz', shown: 'US fl oz', of: 'volume', size: 29.5735295625 },
  { id: 'imp-fl-oz', shown: 'imp fl oz', of: 'volume', size: 28.4130625 },
  { id: 'metric-tsp', shown: 'tsp (5 ml)', of: 'volume', size: 5 },
  { id: 'metric-tbsp', shown: 'tbsp (15 ml)', of: 'volume', size: 15 },
  { id: 'us-tsp', shown: 'US tsp', of: 'volume', size: 4.92892159375 },
  { id: 'us-tbsp', shown: 'US tbsp', of: 'volume', size: 14.78676478125 },
  { id: 'us-cup', shown: 'US cup', of: 'volume', size: 236.5882365 },
  { id: 'us-pint', shown: 'US pint', of: 'volume', size: 473.176473 },
  { id: 'us-gallon', shown: 'US gallon', of: 'volume', size: US_GALLON },
  { id: 'imp-pint', shown: 'imp pint', of: 'volume', size: IMPERIAL_GALLON / 8 },
]

const BY_ID: ReadonlyMap<string, Unit> = new Map(UNITS.map((unit) => [unit.id, unit]))

/** Which unit is this, if it is one we know? @param id as typed in a form or file */
export function findUnit(id: string): Unit | null {
  return BY_ID.get(id) ?? null
}

/** Which unit is this? @throws RangeError for an id not in `UNITS` */
export function requireUnit(id: string): Unit {
  const unit = findUnit(id)
  demand(unit !== null, `a unit must be one of ours, got ${id}`)
  return unit
}

/** One press of the pump on a bottle: the one unit whose size is of the part itself, as the house measured it. */
export const PUMP = 'pump'

/** A share of the drink as built, by mass: what is a share of what, `gramsOfShares` says. */
export const PERCENT = 'percent'

/** One part of a ratio, of which the sheet says once how many grams it is. */
export const PART = 'part'

/** May an amount on the sheet of a drink be typed in this? @param id as typed in a form or file */
export function isSheetUnit(id: string): boolean {
  return id === PERCENT || id === PART || isDoseUnit(id)
}

/** May an amount of something be typed in this, whatever it goes into? @param id as typed in a form */
export function isDoseUnit(id: string): boolean {
  return id === PUMP || findUnit(id) !== null
}

/** Does it take a density to make grams of it? */
export function isVolumeUnit(id: string): boolean {
  return id === PUMP || findUnit(id)?.of === 'volume'
}

/**
 * How much is an amount in another unit?
 *
 *     out = in · size(from) / size(to);   mass = volume · ρ,   volume = mass / ρ
 *
 * @param amount   finite
 * @param density  ρ, g/ml, above 0; needed only between mass and volume, else ignored
 * @returns        the amount, or `density-missing`
 * @throws RangeError  an amount that is not finite, an unknown unit, a density not above 0
 *
 * Source   NIST Handbook 44, Appendix C
 * Checked  test/reference/nist-2008-units.test.ts
 */
export function convert(
  amount: number,
  from: string,
  to: string,
  density: number | null,
): Result<number, 'density-missing'> {
  demand(Number.isFinite(amount), `an amount must be a finite number, got ${amount}`)
  demand(density === null || (Number.isFinite(density) && density > 0), `density must be above 0, got ${density}`)
  const source = requireUnit(from)
  const target = requireUnit(to)
  if (source.of === target.of) return ok((amount * source.size) / target.size)
  if (density === null) return no('density-missing')
  const across = source.of === 'volume' ? amount * source.size * density : (amount * source.size) / density
  return ok(across / target.size)
}

/** How many grams is an amount? As `convert`, into grams. */
export function gramsOf(amount: number, unit: string, density: number | null): Result<number, 'density-missing'> {
  return convert(amount, unit, 'g', density)
}
