import type { BuildLine } from './trial'
import { isFoodDensity } from './ingredient-problem'
import { preparationContents } from './preparation'

/** What a line is made of, before an amount is given to it: an ingredient, or a batch with all that went into it. */
export type Part = Pick<
  BuildLine,
  | 'name'
  | 'kind'
  | 'form'
  | 'density'
  | 'densityIsAssumed'
  | 'costPerGram'
  | 'composition'
  | 'allergens'
  | 'labelRead'
  | 'alcoholPercent'
  | 'preparation'
> & {
  /** "ingredient:ID", "batch:ID" or "preparation:ID", as a form sends it */
  readonly ref: string
  /** ml that one press of its pump gives, as the house measured it; null or left out where it did not */
  readonly pumpMl?: number | null
  /** how a list to choose from names it, where that is not its name */
  readonly offeredAs?: string
  /** of a preparation: what else may be poured in its place another day; it counts for allergens, never for figures */
  readonly beside?: readonly Part[]
}

/** How much of it, where, and how warm. What is left out is not known. */
export type Amount = Pick<BuildLine, 'key' | 'role' | 'targetGrams'> &
  Partial<
    Pick<BuildLine, 'weighedGrams' | 'toleranceGrams' | 'temperature' | 'typed' | 'grind' | 'strainedOut' | 'anyBatch'>
  >

/** A part with an amount. */
export function lineOf(part: Part, amount: Amount): BuildLine {
  const { name, kind, form, density, costPerGram, composition, allergens, labelRead, preparation } = part
  return {
    name,
    kind,
    form,
    density,
    ...(part.densityIsAssumed && { densityIsAssumed: true }),
    costPerGram,
    composition,
    allergens,
    labelRead,
    ...(part.alcoholPercent !== undefined && { alcoholPercent: part.alcoholPercent }),
    preparation,
    insteadOf: null,
    weighedGrams: null,
    toleranceGrams: null,
    temperature: null,
    typed: null,
    grind: null,
    ...amount,
  }
}

/**
 * How many grams is a millilitre of this?
 *
 *     as entered, or as measured of a batch;  else of a batch its mass over the room that it takes
 *
 * @returns  g/ml to six decimals, or null when it is not known, or cannot be
 *
 * Source   what the store keeps; `preparationContents` for a batch
 * Checked  test/unit/drink/part.test.ts
 */
export function densityOfPart({ density, preparation }: Pick<Part, 'density' | 'preparation'>): number | null {
  const known = density ?? (preparation && densityOfBatch(preparation))
  return known !== null && isFoodDensity(known) ? known : null
}

/**
 * g/ml that counts for something new of which nobody said it: of a milk or plant drink alone, and marked as assumed.
 *
 * @returns  1.02, or null where it has to be weighed
 *
 * Source   common practice, no source; between almond drink (1.01) and soy drink (1.035) of the starter set
 */
export const usualDensity = (kind: BuildLine['kind'], form: BuildLine['form']): number | null =>
  kind === 'milk' && form === 'liquid' ? 1.02 : null

function densityOfBatch(preparation: NonNullable<Part['preparation']>): number | null {
  const { grams, volume } = preparationContents(preparation)
  if (grams.missing.length > 0 || volume.missing.length > 0 || !(volume.total > 0)) return null
  return Math.round((grams.total / volume.total) * 1_000_000) / 1_000_000
}

/** A density as somebody typed it, and the part it was typed for. */
export type TypedDensity = { readonly value: number; readonly of: string }

/**
 * Which density turns the volume on a line into grams?
 *
 * @param ref    what the line is made of now
 * @param part   what is known of it; null when it is only a name yet
 * @param typed  counts for the part it was typed for, and for no other
 */
export function densityOnLine(
  ref: string,
  part: Pick<Part, 'density' | 'preparation'> | null,
  typed: TypedDensity | null,
): number | null {
  if (typed?.of === ref) return typed.value
  return part && densityOfPart(part)
}
