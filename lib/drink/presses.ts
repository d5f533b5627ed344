import type { BuildLine } from './trial'
import { PUMP } from './unit'

/** Presses of a pump beside a weight: as many as were typed, about so many, or between two whole numbers of them. */
export type Presses = { readonly is: 'typed' | 'about' | 'between'; readonly least: number; readonly most: number }

/** A share of the dose that whole presses may be off and still be it; common practice, no source. */
const NEAR = 0.05

/** A share that a press may have changed since it was typed: what the rounding of a thousandth of a millilitre makes. */
const SAME = 0.002

/**
 * How many presses of its pump are these grams?
 *
 *     n = grams / press;  n whole within 5 % of the dose: "about n";  else between ⌊n⌋ and ⌈n⌉
 *
 * Nobody gives half a press the same way twice, so there are whole ones alone, but for what was typed in presses of a pump
 * that still gives as much.
 *
 * @param line    its typed amount and the target that it gave, of one glass
 * @param grams   to weigh: the target, or more or less of it
 * @param press   g of one press as the house measured its pump; null where it did not
 * @returns       null where no press was measured and none typed, and below one press
 *
 * Source   common practice, no source; a press by the house's own scale
 * Checked  test/unit/drink/presses.test.ts
 */
export function pressesFor(
  { typed, targetGrams }: Pick<BuildLine, 'typed' | 'targetGrams'>,
  grams: number,
  press: number | null,
): Presses | null {
  if (!(grams > 0)) return null
  const asked = typed?.unit === PUMP && targetGrams > 0 ? typed.amount * (grams / targetGrams) : null
  if (asked !== null && (press === null || Math.abs(asked * press - grams) <= SAME * grams))
    return { is: 'typed', least: asked, most: asked }
  if (press === null || !(press > 0)) return null
  const whole = Math.round(grams / press)
  if (whole >= 1 && Math.abs(whole * press - grams) <= NEAR * grams) return { is: 'about', least: whole, most: whole }
  const least = Math.floor(grams / press)
  return least < 1 ? null : { is: 'between', least, most: least + 1 }
}
