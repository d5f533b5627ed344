import { demand } from '@/lib/base/demand'
import { gramsOfLine } from './contents'
import { sum } from './figure'
import { contentsOfLine, preparationContents } from './preparation'
import { weightAtBrix } from './syrup'
import type { Preparation } from './trial'

/** What a formula is cooked to. */
export type Target = {
  /** g, as somebody set it */
  readonly grams: number | null
  /** °Bx it is cooked to */
  readonly brix: number | null
}

/** How much a formula gives for the inputs as they stand, and by what one knows it. */
export type Yield = {
  readonly grams: number
  /** its target mass; its target Brix; what the strained or the grounds keep back; batches as weighed; nothing is lost */
  readonly by: 'target' | 'brix' | 'retention' | 'measured' | 'sum'
}

/**
 * How much does a formula give?
 *
 *     target M as set;  else M = 100 · S / Bx;  else what stays after the strained or the grounds kept theirs;
 *     else Σ m · (output / Σ inputs) of batches as weighed;  else, of a mix, Σ m
 *
 * @param formula   its inputs as they stand; `outputGrams` null
 * @param measured  output per gram of input in batches made of it, above 0; null where none was weighed
 * @returns         null where nobody can know: then it is asked for
 *
 * Source   balance of mass and sugar
 * Checked  test/unit/drink/formula.test.ts
 * Limits   A mix is taken to lose nothing until a batch of it was weighed.
 */
export function yieldOf(formula: Preparation, target: Target, measured: number | null): Yield | null {
  const into = sum(formula.inputs.map(gramsOfLine))
  if (into.missing.length > 0 || !(into.total > 0)) return null
  if (target.grams !== null && target.grams > 0) return { grams: target.grams, by: 'target' }
  const boiled = target.brix === null ? null : massAtBrix(formula, into.total, target.brix)
  if (boiled !== null) return { grams: boiled, by: 'brix' }
  if ((formula.kind === 'infusion' ? formula.retention : formula.brew?.retention) != null) {
    const { grams } = preparationContents(formula)
    if (grams.missing.length === 0 && grams.total > 0) return { grams: grams.total, by: 'retention' }
  }
  if (measured !== null && measured > 0) return { grams: into.total * measured, by: 'measured' }
  return formula.kind === 'mix' ? { grams: into.total, by: 'sum' } : null
}

/** The mass at which all the sugar put in stands at a Brix; null where it is not known, or lies above what went in. */
function massAtBrix(formula: Preparation, into: number, brix: number): number | null {
  const sugars = sum(formula.inputs.map((line) => contentsOfLine(line, null).sugars))
  if (sugars.missing.length > 0 || !(sugars.total > 0)) return null
  const before = (100 * sugars.total) / into
  return brix < before || brix > 100 ? null : weightAtBrix(into, before, brix)
}

/**
 * Every amount for another mass.
 *
 *     mᵢ · wanted / M
 *
 * @throws RangeError  a mass that is not above 0
 *
 * Source   linear scaling: each share of the whole stays
 * Checked  test/unit/drink/formula.test.ts
 * Limits   Twice the pot simmers longer: who makes much more or less than before weighs it at the end.
 */
export function scaledTo(grams: readonly number[], from: number, wanted: number): readonly number[] {
  demand(from > 0 && wanted > 0, `a formula is scaled between masses above 0, got ${from} and ${wanted}`)
  return grams.map((amount) => (amount * wanted) / from)
}

/** One version of a formula, as two of them are compared. */
export type Version = {
  readonly inputs: readonly {
    readonly ref: string
    readonly name: string
    readonly grams: number
    readonly temperature: number | null
    readonly isStrainedOut: boolean
  }[]
  readonly target: Target
  readonly retention: number | null
  readonly storage: number | null
  readonly keepsHours: number | null
  readonly steps: readonly { readonly text: string; readonly minutes?: number }[]
  readonly note: string | null
}

/** What two versions differ in; null is what was not said. Steps and note are only said to differ. */
export type FormulaChange =
  | { readonly what: 'added' | 'taken-out'; readonly name: string; readonly grams: number }
  | { readonly what: 'amount'; readonly name: string; readonly before: number; readonly after: number }
  | { readonly what: 'strained-out' | 'stays-in'; readonly name: string }
  | {
      readonly what: 'temperature-in'
      readonly name: string
      readonly before: number | null
      readonly after: number | null
    }
  | {
      readonly what: 'target' | 'brix' | 'retention' | 'storage' | 'keeps'
      readonly before: number | null
      readonly after: number | null
    }
  | { readonly what: 'steps' | 'note' | 'order' }

/** What changed from one version of a formula to the next? An input that stands twice is paired in order. */
export function changesBetween(before: Version, after: Version): readonly FormulaChange[] {
  const left = [...before.inputs]
  const changes: FormulaChange[] = []
  for (const input of after.inputs) {
    const at = left.findIndex(({ ref }) => ref === input.ref)
    const old = at < 0 ? undefined : left.splice(at, 1)[0]
    if (!old) changes.push({ what: 'added', name: input.name, grams: input.grams })
    else changes.push(...changesOfInput(old, input))
  }
  for (const { name, grams } of left) changes.push({ what: 'taken-out', name, grams })
  const refs = ({ inputs }: Version) => inputs.map(({ ref }) => ref)
  const [was, is] = [refs(before), refs(after)]
  if (was.join(' ') !== is.join(' ') && was.toSorted().join(' ') === is.toSorted().join(' '))
    changes.push({ what: 'order' })
  const figures = [
    ['target', before.target.grams, after.target.grams],
    ['brix', before.target.brix, after.target.brix],
    ['retention', before.retention, after.retention],
    ['storage', before.storage, after.storage],
    ['keeps', before.keepsHours, after.keepsHours],
  ] as const
  for (const [what, old, now] of figures) if (old !== now) changes.push({ what, before: old, after: now })
  if (JSON.stringify(before.steps) !== JSON.stringify(after.steps)) changes.push({ what: 'steps' })
  if (before.note !== after.note) changes.push({ what: 'note' })
  return changes
}

type Input = Version['inputs'][number]

function changesOfInput(old: Input, now: Input): FormulaChange[] {
  const { name } = now
  const changes: FormulaChange[] = []
  if (old.grams !== now.grams) changes.push({ what: 'amount', name, before: old.grams, after: now.grams })
  if (old.isStrainedOut !== now.isStrainedOut)
    changes.push({ what: now.isStrainedOut ? 'strained-out' : 'stays-in', name })
  if (old.temperature !== now.temperature)
    changes.push({ what: 'temperature-in', name, before: old.temperature, after: now.temperature })
  return changes
}
