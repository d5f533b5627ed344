import { demand } from '@/lib/base/demand'
import { brixByMass } from './brix'
import { sucroseDensity } from './density'

/** What goes into the pot: grams and the share of them that is sugar. The rest counts as water unless `other` says so. */
export type SyrupInput = { readonly grams: number; readonly sugarFraction: number }

/** One batch of syrup. Masses in g, density in g/ml at 20 °C, volume in ml. */
export type SyrupBatch = {
  readonly sugarGrams: number
  readonly outputGrams: number
  readonly lostGrams: number
  readonly brix: number
  readonly density: number
  readonly sugarPerMl: number
  readonly volumeMl: number
}

/**
 * What did this batch of syrup become?
 *
 *     S = Σ m·s,   Bx = 100 · S / M,   lost = Σ m − M,   ρ = ρ(Bx, 20 °C),   sugar per ml = Bx/100 · ρ
 *
 * @param inputs       grams above 0, sugar fraction 0–1
 * @param outputGrams  M, weighed after cooking; what is missing is taken for steam
 * @throws RangeError  nothing put in, output heavier than inputs, or lighter than its sugar
 *
 * Source   balance of mass; ICUMSA SPS-4 for the density
 * Checked  test/reference/icumsa-sps4-density.test.ts
 * Limits   What clings to pot and spoon counts as steam: weigh the pot, not the bottle. Brown sugar's other solids are
 *          counted as water here, so its Brix reads a little low.
 */
export function syrupBatch(inputs: readonly SyrupInput[], outputGrams: number): SyrupBatch {
  let into = 0
  let sugarGrams = 0
  for (const { grams, sugarFraction } of inputs) {
    demand(grams > 0, `an amount must be above 0, got ${grams}`)
    demand(sugarFraction >= 0 && sugarFraction <= 1, `share of sugar must lie between 0 and 1, got ${sugarFraction}`)
    into += grams
    sugarGrams += grams * sugarFraction
  }
  demand(into > 0, `a syrup needs something put in, got ${into}`)
  demand(outputGrams <= into, `output must not outweigh what went in (${into}), got ${outputGrams}`)
  demand(outputGrams >= sugarGrams, `output must not weigh less than its sugar (${sugarGrams}), got ${outputGrams}`)
  const brix = brixByMass(sugarGrams, outputGrams - sugarGrams)
  const density = sucroseDensity(brix, 20) / 1000
  return {
    sugarGrams,
    outputGrams,
    lostGrams: into - outputGrams,
    brix,
    density,
    sugarPerMl: (brix / 100) * density,
    volumeMl: outputGrams / density,
  }
}

/**
 * What must the pot weigh when it reaches a Brix?
 *
 *     m₂ = m₁ · Bx₁ / Bx₂      sugar stays, water leaves
 *
 * @param grams  m₁ at `brix`, above 0
 * @throws RangeError  a wanted Brix below the present one or above 100
 *
 * Source   balance of mass
 * Checked  test/reference/icumsa-sps4-density.test.ts
 */
export function weightAtBrix(grams: number, brix: number, wantedBrix: number): number {
  demand(grams > 0, `an amount must be above 0, got ${grams}`)
  demand(
    brix > 0 && wantedBrix >= brix && wantedBrix <= 100,
    `simmering goes up from ${brix} to 100 Brix, got ${wantedBrix}`,
  )
  return (grams * brix) / wantedBrix
}

/**
 * How much of another syrup brings the same sugar, and what water is then missing?
 *
 *     m₂ = m₁ · Bx₁ / Bx₂,   water to add = m₁ − m₂ (negative: take away)
 *
 * @throws RangeError  a mass or a Brix not above 0
 *
 * Source   balance of mass; by volume V₂ = V₁ · (sugar per ml)₁ / (sugar per ml)₂
 * Checked  test/reference/icumsa-sps4-density.test.ts
 */
export function swapSyrup(grams: number, brix: number, otherBrix: number): { grams: number; waterToAdd: number } {
  demand(grams > 0, `an amount must be above 0, got ${grams}`)
  demand(
    brix > 0 && brix <= 100 && otherBrix > 0 && otherBrix <= 100,
    `Brix must lie in 0–100, got ${brix}, ${otherBrix}`,
  )
  const other = (grams * brix) / otherBrix
  return { grams: other, waterToAdd: grams - other }
}
