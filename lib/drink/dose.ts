import { no, ok, type Result } from '@/lib/base/result'
import { densityOnLine, type Part, type TypedDensity } from './part'
import type { BuildLine, TypedAmount } from './trial'
import { gramsOf, isVolumeUnit, PUMP } from './unit'

/** What must be known before an amount can be weighed. */
export type DoseRefusal = 'density-missing' | 'pump-missing'

/** Grams of a part, and the g/ml that made them of a volume; null where grams were typed. */
export interface Dose {
  readonly grams: number
  readonly density: number | null
}

/** What is known of a part that is dosed. */
export type Dosed = Pick<Part, 'density' | 'preparation' | 'pumpMl'>

/**
 * How many grams of this part are what somebody typed?
 *
 *     grams = amount · size(unit) · ρ;   of a pump, size = ml of one press, as the house measured it
 *
 * @param typed    amount above 0, in one of our units or in presses of the pump
 * @param ref      what the line is made of
 * @param part     what is known of it; null when it is only a name yet
 * @param density  as typed beside it; counts for the part it was typed for
 * @returns        `pump-missing` before `density-missing`: nothing is taken for granted of either
 *
 * Source   NIST Handbook 44, Appendix C; the pump by the house's own scale
 * Checked  test/unit/drink/dose.test.ts
 */
export function doseOf(
  typed: { readonly amount: number; readonly unit: string },
  ref: string,
  part: Dosed | null,
  density: TypedDensity | null,
): Result<Dose, DoseRefusal> {
  const perMl = isVolumeUnit(typed.unit) ? densityOnLine(ref, part, density) : null
  const press = part?.pumpMl ?? null
  if (typed.unit === PUMP && press === null) return no('pump-missing')
  const [amount, unit] = typed.unit === PUMP ? [typed.amount * (press ?? 0), 'ml'] : [typed.amount, typed.unit]
  const grams = gramsOf(amount, unit, perMl)
  return grams.ok ? ok({ grams: grams.value, density: perMl }) : grams
}

/** Presses of the pump that are so many grams of a line typed in presses; null where it was typed otherwise. */
export function pressesIn(
  { typed, targetGrams }: Pick<BuildLine, 'typed' | 'targetGrams'>,
  grams: number,
): number | null {
  return typed?.unit === PUMP && targetGrams > 0 ? (typed.amount * grams) / targetGrams : null
}

/**
 * What was typed, as a house reads it that has no such pump: presses become the millilitres that they gave on that day, or
 * grams where nobody knows what a millilitre weighs.
 */
export function withoutPump({ typed, targetGrams }: Pick<BuildLine, 'typed' | 'targetGrams'>): TypedAmount | null {
  if (typed?.unit !== PUMP) return typed
  const { density } = typed
  if (density === null) return { amount: targetGrams, unit: 'g', density: null }
  return { amount: Math.round((targetGrams / density) * 1e6) / 1e6, unit: 'ml', density }
}
