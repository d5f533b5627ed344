import type { NumberField } from '@/lib/base/typed-number'
import { clockIn } from '@/lib/base/zone-time'
import { DENSITY, PERCENT, printed, printTyped, temperatureField, THOUSANDTHS } from '@/lib/forms/number-fields'
import type { FormulaStart } from '@/lib/tasks/store/read-formula'
import type { BatchSheet } from '@/lib/tasks/store/read-preparation'

const part = (value: number | null, of: number, field: NumberField) =>
  printed(value === null ? null : value / of, field)

const refOf = (input: BatchSheet['row']['inputs'][number]) =>
  input.ingredientId ? `ingredient:${input.ingredientId}` : `batch:${input.inputBatchId}`

/** As it was written; for another mass to hundredths of a gram, finer than anybody weighs a pot. */
const scaled = (grams: number, factor: number) =>
  printed(factor === 1 ? grams : Math.round(grams * factor * 100) / 100, THOUSANDTHS)

/** A new batch as the form holds it, begun from an earlier one: its inputs for another mass, its steps, and nothing measured. */
function defaultsFromLast(sheet: BatchSheet, grams: number | null, madeAt: string) {
  const output = (sheet.row.outputMg ?? 0) / 1000
  const factor = grams === null || output === 0 ? 1 : grams / output
  const { inputs, steps } = batchDefaults(sheet, 'UTC')
  return {
    inputs: inputs.map(({ part: ref, densityFor, temperature, isStrainedOut }, place) => ({
      part: ref,
      densityFor,
      amount: scaled((sheet.row.inputs[place]?.amountMg ?? 0) / 1000, factor),
      unit: 'g',
      density: '',
      temperature,
      ...(isStrainedOut && { isStrainedOut }),
    })),
    steps,
    madeAt,
  }
}

/** A new batch as the form holds it, by what ought to go in: for another mass where it is known what that gives. */
export function defaultsFromInputs(
  { steps, givesGrams, inputs }: Pick<FormulaStart, 'steps' | 'inputs'> & { readonly givesGrams: number | null },
  grams: number | null,
  madeAt: string,
) {
  const factor = grams === null || givesGrams === null ? 1 : grams / givesGrams
  return {
    inputs: inputs.map(({ part: ref, grams: amount, temperature, isStrainedOut }) => ({
      part: ref ?? '',
      densityFor: ref ?? '',
      amount: scaled(amount, factor),
      unit: 'g',
      density: '',
      temperature: printed(temperature, temperatureField(-40, 100)),
      ...(isStrainedOut && { isStrainedOut: 'on' }),
    })),
    steps: stepFields(steps),
    madeAt,
  }
}

/** What a new batch begins with: the last one, the formula, or nothing but the hour. */
export function defaultsOfStart(start: {
  readonly begun: BatchSheet | null
  readonly formula: FormulaStart | null
  readonly grams: number | null
  readonly madeAt: string
}) {
  const { begun, formula, grams, madeAt } = start
  if (begun) return defaultsFromLast(begun, grams, madeAt)
  const gives = formula?.gives?.grams ?? null
  return formula ? defaultsFromInputs({ ...formula, givesGrams: gives }, grams, madeAt) : { madeAt }
}

const stepFields = (steps: BatchSheet['steps']) =>
  steps.map((step) => ({ text: step.text, minutes: printed(step.minutes ?? null, { least: 0, most: 10_080 }) }))

/** The batch as its form fields hold it: what was typed stays as it was typed. */
export function batchDefaults({ row, steps }: BatchSheet, zone: string) {
  return {
    inputs: row.inputs.map((input) => ({
      part: refOf(input),
      densityFor: refOf(input),
      amount: printTyped(input.typed),
      unit: input.unit,
      density: part(input.microdensity, 1_000_000, DENSITY),
      temperature: part(input.temperatureDeciC, 10, temperatureField(-40, 100)),
      ...(input.isStrainedOut && { isStrainedOut: 'on' }),
    })),
    steps: stepFields(steps),
    output: part(row.outputMg, 1000, THOUSANDTHS),
    brix: part(row.brixHundredths, 100, PERCENT),
    solids: part(row.solidsHundredths, 100, PERCENT),
    density: part(row.microdensity, 1_000_000, DENSITY),
    madeAt: row.madeAt ? clockIn(row.madeAt, zone) : '',
    discardAt: row.discardAt ? clockIn(row.discardAt, zone) : '',
    note: row.note ?? '',
  }
}
