import { demand } from '@/lib/base/demand'
import { swapSyrup } from './syrup'
import { brixOf } from './preparation'
import { preparationsWithin } from './nesting'
import type { Preparation } from './trial'

/** What a dose of one batch of a syrup becomes in another batch of it. */
export type OtherBatch =
  | { readonly dose: 'stays' }
  /** grams that hold the same sugar, which nobody has tasted; °Bx of both */
  | { readonly dose: 'corrected'; readonly grams: number; readonly was: number; readonly reads: number }
  /** nobody can say: the °Bx of one of them, or of both, is not known */
  | { readonly dose: 'unknown'; readonly lacks: readonly ('was' | 'reads')[] }

/**
 * Hundredths of °Bx between two batches that count as the same: a refractometer is good for half a degree, and few taste a
 * degree. Common practice, no source.
 */
const APART = 100

/**
 * How much of another batch of a syrup goes into the glass?
 *
 *     |Bx₂ − Bx₁| ≤ 1:  the same grams;   beyond it  m₂ = m₁ · Bx₁ / Bx₂, the same sugar
 *
 * @param grams  m₁, above 0
 * @param was    Bx₁ of the batch the dose was written for or tasted with; null where it is not known
 * @param reads  Bx₂ of the batch that is poured; null where it is not known
 * @returns      by hundredths of a degree, as a Brix is kept: one degree apart is within
 * @throws RangeError  an amount that is not above 0, a Brix over 100
 *
 * Source   balance of mass, as `swapSyrup`
 * Checked  test/unit/drink/other-batch.test.ts
 * Limits   The same sugar in less or more water: cold, flavour and volume are others. Nobody has tasted it.
 */
export function doseFromOtherBatch(grams: number, was: number | null, reads: number | null): OtherBatch {
  demand(grams > 0, `an amount must be above 0, got ${grams}`)
  const known = (brix: number | null): brix is number => brix !== null && brix > 0
  if (!known(was) || !known(reads))
    return {
      dose: 'unknown',
      lacks: [...(known(was) ? [] : ['was' as const]), ...(known(reads) ? [] : ['reads' as const])],
    }
  if (Math.abs(Math.round(was * 100) - Math.round(reads * 100)) <= APART) return { dose: 'stays' }
  return { dose: 'corrected', grams: swapSyrup(grams, was, reads).grams, was, reads }
}

/**
 * Is a dose of this preparation corrected by its °Bx? Of a syrup always; of what is infused or mixed where a °Bx was read of a
 * batch, or its formula names one. Not of a brew, whose dissolved solids are no sugar, nor where milk is in it: a
 * refractometer reads the milk too.
 *
 * @param batches  of it, those that are compared
 * @param named    °Bx of its formula; null where it names none
 *
 * Source   common practice, no source
 * Checked  test/unit/drink/other-batch.test.ts
 */
export function goesByBrix(batches: readonly Preparation[], named: number | null): boolean {
  if (batches.some(({ kind }) => kind === 'brew') || batches.some(hasMilk)) return false
  return batches.some(({ kind, brixMeasured }) => kind === 'syrup' || named !== null || brixMeasured !== null)
}

const hasMilk = (preparation: Preparation) =>
  [preparation, ...preparationsWithin(preparation.inputs)].some(({ inputs }) =>
    inputs.some(({ kind }) => kind === 'milk'),
  )

/**
 * Which °Bx do two batches compare by? A syrup's as read, else by weight; of what is infused or mixed as read alone, since the
 * sugar that nobody reads there is not all that a refractometer sees.
 *
 * @returns null where it is not known
 */
export function comparedBrix(batch: Preparation): number | null {
  if (batch.kind !== 'syrup' && batch.brixMeasured === null) return null
  const brix = brixOf(batch)
  return brix.missing.length > 0 ? null : brix.total
}
