import { demand } from '@/lib/base/demand'
import { gramsOfLine } from './contents'
import type { Tally } from './figure'
import { sum, times } from './figure'
import { preparationsWithin } from './nesting'
import type { Worked } from './preparation'
import { preparationContents } from './preparation'
import type { BuildLine, Preparation, TrialBuild } from './trial'

/** Most glasses made at once: a day of a busy bar, not a slip of the finger. */
export const MOST_MADE = 10_000

/** Something to weigh, by its name: grams. */
export type Weighed = { readonly name: string; readonly grams: number }

/** A batch to make: how much of it is needed, and what goes in. */
export type BatchToMake = Weighed & { readonly inputs: readonly Weighed[] }

/** Everything for many glasses or a jug, in grams. Nothing is rounded: who prints it rounds to what the scale shows. */
export type Parts = {
  readonly known: true
  /** in build order; grounds as their dry dose */
  readonly lines: readonly (Weighed & { readonly key: string })[]
  /** in working order: what goes into another stands before it */
  readonly preparations: readonly BatchToMake[]
  /** what is bought or drawn from the tap, down through every preparation, each name once */
  readonly shopping: readonly Weighed[]
}

/** The same, for so many glasses. */
export type Made = Parts & { readonly glasses: number }

/** What is there already: g of each preparation, by its name. */
export type Shelf = ReadonlyMap<string, number>

const NOTHING: Shelf = new Map()

/** g: less is the rounding of the sums, and nothing to make. */
const A_SPECK = 1e-6

/** What must be known first. */
export type Lacking = { readonly known: false; readonly missing: Tally['missing'] }

/**
 * What does it take to make this drink so many times over?
 *
 *     line = target · factor;  input of a batch = its grams · needed / output of that batch
 *
 * @param factor   above 0, whole or not
 * @param onShelf  g that are there of a preparation, by its name: so much less of it is made, and of what goes into it
 * @returns        what to weigh, batches that are there in full left out; or what is missing, where an amount or the output
 *   of a batch to make is not known
 * @throws RangeError  a factor that is not above 0
 *
 * Source   linear scaling; balance of mass through the measured output of each batch
 * Checked  test/unit/drink/make-many.test.ts
 * Limits   Brewing and simmering do not scale so: a batch changed more than twofold is weighed anew.
 */
export function partsFor(build: TrialBuild, factor: number, onShelf: Shelf = NOTHING): Parts | Lacking {
  demand(factor > 0 && Number.isFinite(factor), `factor must be above 0, got ${factor}`)
  const wanted = build.lines.map((line) => ({
    line,
    grams: times(gramsOfLine({ ...line, weighedGrams: null }), factor),
  }))
  const batches = batchesFor(wanted, onShelf)
  const { missing } = sum([...wanted.map(({ grams }) => grams), ...batches.map(({ output }) => output)])
  if (missing.length > 0) return { known: false, missing }
  return {
    known: true,
    lines: wanted.map(({ line, grams }) => ({ key: line.key, name: line.name, grams: grams.total })),
    preparations: batches.map(({ preparation, grams, inputs }) => ({
      name: preparation.name,
      grams,
      inputs: inputs.map(weighed),
    })),
    shopping: bought([...wanted, ...batches.flatMap(({ inputs }) => inputs)]),
  }
}

/**
 * What do many glasses take?
 *
 *     factor = n · (1 + spare)
 *
 * @param glasses  n, whole, 1 to 10 000
 * @param spare    share made beyond that, 0 to 1
 * @param onShelf  as for `partsFor`
 * @throws RangeError  any other number
 *
 * Source   `partsFor`
 * Checked  test/unit/drink/make-many.test.ts
 */
export function makeMany(build: TrialBuild, glasses: number, spare: number, onShelf: Shelf = NOTHING): Made | Lacking {
  const whole = Number.isInteger(glasses) && glasses >= 1 && glasses <= MOST_MADE
  demand(whole, `glasses must be a whole number from 1 to ${MOST_MADE}, got ${glasses}`)
  demand(spare >= 0 && spare <= 1, `spare must lie between 0 and 1, got ${spare}`)
  const parts = partsFor(build, glasses * (1 + spare), onShelf)
  return parts.known ? { glasses, ...parts } : parts
}

type Wanted = { readonly line: BuildLine; readonly grams: Tally }

const weighed = ({ line, grams }: Wanted): Weighed => ({ name: line.name, grams: grams.total })

/** Innermost first; worked out from the outside in, so that all that is needed of a batch is known before its inputs are. */
function batchesFor(wanted: readonly Wanted[], onShelf: Shelf) {
  const worked: Worked = new Map()
  const needed = new Map<Preparation, number>()
  const left = new Map(onShelf)
  const need = ({ line, grams }: Wanted) => {
    if (line.preparation) needed.set(line.preparation, (needed.get(line.preparation) ?? 0) + grams.total)
  }
  wanted.forEach(need)
  const outermostFirst = preparationsWithin(wanted.map(({ line }) => line)).toReversed()
  const batches = outermostFirst.flatMap((preparation) => {
    const wants = needed.get(preparation) ?? 0
    const there = left.get(preparation.name) ?? 0
    left.set(preparation.name, Math.max(0, there - wants))
    // what is there in full, and what would have gone into it alone
    if (onShelf.size > 0 && wants - there < A_SPECK) return []
    const grams = wants - there
    const output = preparationContents(preparation, worked).grams
    // as weighed where it was weighed: that is what gave the measured output
    const inputs = preparation.inputs.map((line) => ({
      line,
      grams: times(gramsOfLine(line), output.missing.length > 0 ? 0 : grams / output.total),
    }))
    inputs.forEach(need)
    return [{ preparation, grams, output: sum([output, ...inputs.map((input) => input.grams)]), inputs }]
  })
  return batches.toReversed()
}

function bought(all: readonly Wanted[]): readonly Weighed[] {
  const byName = new Map<string, number>()
  for (const { line, grams } of all) {
    if (!line.preparation) byName.set(line.name, (byName.get(line.name) ?? 0) + grams.total)
  }
  return [...byName].map(([name, grams]) => ({ name, grams }))
}
