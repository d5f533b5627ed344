/** A number the page can open: its formula with the numbers in it, what was assumed, and where the constants come from. */
export type KnownFigure = {
  readonly known: true
  readonly value: number
  readonly unit: string
  readonly formula: string
  readonly assumed: readonly string[]
  readonly sources: readonly string[]
}

/** A number that cannot be given yet: what is missing, in the user's words ("density of Date syrup"). */
export type UnknownFigure = { readonly known: false; readonly unit: string; readonly missing: readonly string[] }

/** One computed figure of a drink: known with its working, or not known with the reason. Never NaN, never a silent zero. */
export type Figure = KnownFigure | UnknownFigure

/** What is known of a range though not all of it is: between two ends, from what is named. The whole is never less. */
export type KnownPart = { readonly low: number; readonly high: number; readonly of: readonly string[] }

/** A figure that is honestly only known between two ends; where some of it is not known, what is known stands beside. */
export type RangeFigure =
  (KnownFigure & { readonly low: number; readonly high: number }) | (UnknownFigure & { readonly atLeast?: KnownPart })

/**
 * What a check found wrong: the field it belongs beside, and the sentence to show there. A doubt is shown but does not
 * stop anyone: measured values may disagree and the person knows better. All else cannot be right and is refused.
 */
export type Problem = { readonly field: string; readonly message: string; readonly doubt: boolean }

/** A sum being made: its total so far, what is missing to finish it, what was assumed on the way. */
export type Tally = { readonly total: number; readonly missing: readonly string[]; readonly assumed: readonly string[] }

const NO_WORDS: readonly string[] = []

/** A sum that has not begun. */
export const NOTHING: Tally = { total: 0, missing: NO_WORDS, assumed: NO_WORDS }

/**
 * How does an amount that may be unknown enter a sum?
 *
 * @param value    a finite number, or null when it is not known
 * @param missing  what to ask for when it is null ("density of Date syrup")
 * @param assumed  what was taken for granted in the value, if anything
 */
export function tally(value: number | null | undefined, missing: string, assumed: readonly string[] = NO_WORDS): Tally {
  if (value === null || value === undefined || !Number.isFinite(value)) {
    return { total: 0, missing: [missing], assumed: NO_WORDS }
  }
  return { total: value, missing: NO_WORDS, assumed }
}

/** Words of all lists, each once. Nearly always there are none, and thousands of sums are made while one types. */
function joined(parts: readonly Tally[], which: 'missing' | 'assumed'): readonly string[] {
  let first = NO_WORDS
  let all: Set<string> | null = null
  for (const part of parts) {
    const words = part[which]
    if (words.length === 0 || words === first) continue
    if (first.length === 0) first = words
    else all = new Set([...(all ?? first), ...words])
  }
  return all === null ? first : [...all]
}

/**
 * What do the parts make together?
 *
 *     total = Σ part;  everything missing or assumed in any part is missing or assumed in the whole
 */
export function sum(parts: readonly Tally[]): Tally {
  let total = 0
  for (const part of parts) total += part.total
  return { total, missing: joined(parts, 'missing'), assumed: joined(parts, 'assumed') }
}

/** How much is a share of a sum that may be unknown? @param factor finite, dimensionless or a conversion */
export function times(part: Tally, factor: number): Tally {
  return { ...part, total: part.total * factor }
}

/** What is a product or other function of several sums, unknown if any of them is? @param how finite for finite totals */
export function combine(parts: readonly Tally[], how: (...totals: number[]) => number): Tally {
  const missing = joined(parts, 'missing')
  if (missing.length > 0) return { total: 0, missing, assumed: NO_WORDS }
  const total = how(...parts.map((part) => part.total))
  if (!Number.isFinite(total)) return DISAGREE
  return { total, missing, assumed: joined(parts, 'assumed') }
}

const DISAGREE: Tally = { total: 0, missing: ['amounts that agree with one another'], assumed: NO_WORDS }

/**
 * How does a finished sum become a figure with its working?
 *
 * @param formula  written only when the sum is known, so that it can put the numbers in
 */
export function figure(from: Tally, unit: string, formula: () => string, sources: readonly string[] = []): Figure {
  if (from.missing.length > 0) return { known: false, unit, missing: from.missing }
  return { known: true, value: from.total, unit, formula: formula(), assumed: from.assumed, sources }
}

/** What does one say of a figure that is not known? A sentence: "not known: density of Date syrup is missing". */
export function whyUnknown(unknown: UnknownFigure): string {
  const { missing } = unknown
  const last = missing.at(-1)
  if (missing.length <= 1) return `not known: ${last ?? 'an amount'} is missing`
  return `not known: ${missing.slice(0, -1).join(', ')} and ${last} are missing`
}

/**
 * How is a number written inside a formula?
 *
 * @param digits  decimals kept at most; trailing zeros are dropped, the sign of a zero too
 */
export function written(value: number, digits = 2): string {
  return String(Number(value.toFixed(digits)) + 0)
}
