import { demand } from '@/lib/base/demand'

/** Liquid kept per gram of coffee when nobody measured it. */
export const USUAL_RETENTION = 2

const positive = (value: number, what: string) => demand(value > 0, `${what} must be above 0, got ${value}`)
const fraction = (value: number, what: string) =>
  demand(value >= 0 && value < 1, `${what} must be a fraction from 0 to below 1, got ${value}`)

/**
 * How much beverage comes out of a brew?
 *
 *     B = W − k · D
 *
 * @param waterGrams  W, all water poured in
 * @param doseGrams   D, dry coffee
 * @param retention   k, g of liquid kept per g of coffee
 * @throws RangeError  water that does not exceed what the grounds keep
 *
 * Source   balance of mass; k = 2 is common practice, 2–2.5 drip, about 3 for a decanted plunger pot
 * Checked  test/reference/coffee-brew-examples.test.ts
 * Limits   k belongs to the brewer and grind: weigh the beverage once and use `measuredRetention`.
 */
export function beverageMass(waterGrams: number, doseGrams: number, retention: number): number {
  positive(doseGrams, 'dose')
  demand(retention >= 0, `retention must not be negative, got ${retention}`)
  demand(waterGrams > retention * doseGrams, `water must exceed what the grounds keep, got ${waterGrams}`)
  return waterGrams - retention * doseGrams
}

/** How much liquid did the grounds keep, per gram? k = (W − B) / D. @throws RangeError  a beverage heavier than the water */
export function measuredRetention(waterGrams: number, beverageGrams: number, doseGrams: number): number {
  positive(doseGrams, 'dose')
  demand(beverageGrams <= waterGrams, `beverage must not outweigh the water, got ${beverageGrams}`)
  return (waterGrams - beverageGrams) / doseGrams
}

/**
 * How much coffee for a wanted beverage?
 *
 *     water-in:      D = B / (r − k)
 *     beverage-out:  D = B / r
 *
 * @param ratio  r, g of water (or beverage) per g of coffee
 * @throws RangeError  a water-in ratio not above the retention
 *
 * Source   balance of mass
 * Checked  test/reference/coffee-brew-examples.test.ts
 */
export function doseForBeverage(
  beverageGrams: number,
  ratio: number,
  kind: 'water-in' | 'beverage-out',
  retention: number,
): number {
  positive(ratio, 'ratio')
  if (kind === 'beverage-out') return beverageGrams / ratio
  demand(ratio > retention, `a coffee-to-water ratio must be above the retention ${retention}, got ${ratio}`)
  return beverageGrams / (ratio - retention)
}

/**
 * What share of the coffee dissolved, in drip, pour-over or espresso?
 *
 *     E = t · B / D
 *
 * @param strength  t, dissolved solids of the beverage, fraction of its mass
 *
 * Source   balance of dissolved solids; published brewing texts
 * Checked  test/reference/coffee-brew-examples.test.ts
 * Limits   Not for immersion: what the grounds keep is as strong as the cup, and is left out here.
 */
export function percolationExtraction(strength: number, beverageGrams: number, doseGrams: number): number {
  fraction(strength, 'strength')
  positive(doseGrams, 'dose')
  return (strength * beverageGrams) / doseGrams
}

/** How strong is a percolated beverage? t = E · D / B. @throws RangeError  no beverage, or an extraction outside 0–1 */
export function percolationStrength(extraction: number, doseGrams: number, beverageGrams: number): number {
  fraction(extraction, 'extraction')
  positive(beverageGrams, 'beverage')
  return (extraction * doseGrams) / beverageGrams
}

/**
 * What share of the coffee dissolved, in a plunger pot, cold steep or bowl?
 *
 *     E = t · W / ((1 − t) · D)      all liquid counts, also what the grounds keep
 *
 * Source   balance of dissolved solids in full immersion; Liang, Chan & Ristenpart (2021)
 * Checked  test/reference/coffee-brew-examples.test.ts
 */
export function immersionExtraction(strength: number, waterGrams: number, doseGrams: number): number {
  fraction(strength, 'strength')
  positive(doseGrams, 'dose')
  return (strength * waterGrams) / ((1 - strength) * doseGrams)
}

/** How strong is an immersion brew? t = E · D / (W + E · D), whatever the grounds keep. @throws RangeError  no water */
export function immersionStrength(extraction: number, doseGrams: number, waterGrams: number): number {
  fraction(extraction, 'extraction')
  positive(waterGrams, 'water')
  return (extraction * doseGrams) / (waterGrams + extraction * doseGrams)
}

/**
 * What share dissolved when the brew is part immersion, part percolation?
 *
 *     E = ((t − s)/(1 − s)) · B/D + (s/(1 − s)) · (W/D − f)
 *
 * @param lastDrops       s, strength of the last drops, fraction; 0 gives percolation, t gives immersion
 * @param absorbedInside  f, g of water inside the particles per g; 0 if unknown
 *
 * Source   published general extraction formula
 * Checked  test/reference/coffee-brew-examples.test.ts
 * Limits   At s = t it equals the immersion formula only if B + k·D is the whole liquid, solids included.
 */
export function mixedExtraction(
  strength: number,
  lastDrops: number,
  beverageGrams: number,
  doseGrams: number,
  waterGrams: number,
  absorbedInside = 0,
): number {
  fraction(strength, 'strength')
  fraction(lastDrops, 'strength of the last drops')
  positive(doseGrams, 'dose')
  const fresh = ((strength - lastDrops) / (1 - lastDrops)) * (beverageGrams / doseGrams)
  return fresh + (lastDrops / (1 - lastDrops)) * (waterGrams / doseGrams - absorbedInside)
}

/** How strong after adding water? t₂ = t₁ · m₁ / (m₁ + added). @throws RangeError  nothing to dilute */
export function bypassStrength(strength: number, grams: number, addedGrams: number): number {
  fraction(strength, 'strength')
  positive(grams, 'beverage')
  demand(addedGrams >= 0, `added water must not be negative, got ${addedGrams}`)
  return (strength * grams) / (grams + addedGrams)
}

/** How strong is dissolved instant coffee? t = m / (m + W): nothing is kept, all dissolves. */
export function instantStrength(powderGrams: number, waterGrams: number): number {
  demand(powderGrams >= 0, `powder must not be negative, got ${powderGrams}`)
  positive(waterGrams, 'water')
  return powderGrams / (powderGrams + waterGrams)
}
