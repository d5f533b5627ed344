/** A scale of the house: what it is called, null where nobody said, and the grams it shows at least. */
export interface Scale {
  readonly name: string | null
  readonly division: number
}

/** What a house weighs on: doses, and what is poured under the glass: milk, water and ice. */
export interface Scales {
  readonly doses: Scale
  readonly pours: Scale
}

/** Doses by tenths, what is poured by the gram: common practice, no source. */
export const USUAL_SCALES: Scales = { doses: { name: null, division: 0.1 }, pours: { name: null, division: 1 } }

/**
 * How many decimals does such a scale show?
 *
 *     ⌈−log₁₀ division⌉, at least one
 *
 * @param division  g, above 0
 *
 * Source   decimal notation
 * Checked  test/unit/drink/house-scales.test.ts
 */
export function decimalsOf(division: number): number {
  return Math.max(1, Math.ceil(-Math.log10(division) - 1e-9))
}
