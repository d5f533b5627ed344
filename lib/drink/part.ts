import type { BuildLine } from './build'

/** What a line is made of, before an amount is given to it: an ingredient, or a batch with all that went into it. */
export type Part = Pick<
  BuildLine,
  'name' | 'kind' | 'form' | 'density' | 'costPerGram' | 'composition' | 'allergens' | 'labelRead' | 'preparation'
> & {
  /** "ingredient:ID" or "batch:ID", as a form sends it */
  readonly ref: string
}

/** How much of it, where, and how warm. What is left out is not known. */
export type Amount = Pick<BuildLine, 'key' | 'role' | 'targetGrams'> &
  Partial<Pick<BuildLine, 'weighedGrams' | 'toleranceGrams' | 'temperature' | 'typed'>>

/** A part with an amount. */
export function lineOf(part: Part, amount: Amount): BuildLine {
  const { name, kind, form, density, costPerGram, composition, allergens, labelRead, preparation } = part
  return {
    name,
    kind,
    form,
    density,
    costPerGram,
    composition,
    allergens,
    labelRead,
    preparation,
    insteadOf: null,
    weighedGrams: null,
    toleranceGrams: null,
    temperature: null,
    typed: null,
    ...amount,
  }
}
