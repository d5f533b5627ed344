import 'server-only'
import { designTyped } from '@/lib/forms/difference-figures-form'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import { difference, differenceLimits, type DifferenceDesign } from '@/lib/panel/kinds/difference'
import { mlToPour, portionsPerCup } from '@/lib/panel/portions'
import { tastersForTelling, tellingPower, type TellingPower } from './telling-power'

/** What a plan that asks whether two can be told apart comes to. */
export interface DifferenceFigures {
  readonly design: Pick<DifferenceDesign, 'aim' | 'protocol' | 'each' | 'share'>
  /** reaches the aim four times out of five; null where four hundred tasters do not */
  readonly needed: TellingPower | null
  /** with the seats now typed */
  readonly withSeats: TellingPower | null
  /** of a plan to find a difference: the chance to say so where nobody can tell */
  readonly byLuck: number | null
  /** cups at one seat */
  readonly cups: number
  readonly tooMany: boolean
  readonly perTasterMl: number | null
  readonly perCupMl: number | null
}

/**
 * Works it out while it is typed, by the exact tests that read it: nothing is drawn by chance.
 *
 * @returns null while too little is typed
 */
export function readDifferenceFigures(typed: TypedFigures): DifferenceFigures | null {
  const design = designTyped(typed)
  if (!design) return null
  const { seats, ml } = typed
  const pourings = difference.trays?.pourings(design) ?? null
  const cups = pourings?.total ?? 0
  // where several answers each are of no use the plan is refused; its figures are those of one each
  const asked = design.aim === 'alike' ? { ...design, each: 1 } : design
  return {
    design,
    needed: tastersForTelling(asked),
    withSeats: seats === null ? null : tellingPower(asked, seats),
    byLuck: seats === null || design.aim === 'alike' ? null : tellingPower({ ...asked, share: 0 }, seats).power,
    cups,
    tooMany: cups > differenceLimits.pourings,
    perTasterMl: ml === null ? null : cups * ml,
    perCupMl:
      ml === null || seats === null
        ? null
        : mlToPour(portionsPerCup({ seats, cups: 2, cupsPerTaster: null, pourings }), ml),
  }
}
