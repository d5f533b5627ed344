import type { NumberField } from '@/lib/base/typed-number'
import { RETENTION } from '@/lib/forms/formula-form'
import { DENSITY, PERCENT, printed, printTyped, temperatureField, THOUSANDTHS } from '@/lib/forms/number-fields'
import type { FormulaVersion } from '@/lib/tasks/store/read-formula'

const part = (value: number | null, of: number, field: NumberField) =>
  printed(value === null ? null : value / of, field)

const refOf = (input: FormulaVersion['row']['inputs'][number]) =>
  input.ingredientId ? `ingredient:${input.ingredientId}` : `preparation:${input.preparationId}`

/** A formula as its form fields hold it: what was typed stays as it was typed. */
export function formulaDefaults({ row, steps }: Pick<FormulaVersion, 'row' | 'steps'>) {
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
    steps: steps.map((step) => ({
      text: step.text,
      minutes: printed(step.minutes ?? null, { least: 0, most: 10_080 }),
    })),
    target: part(row.targetMg, 1000, THOUSANDTHS),
    brix: part(row.brixHundredths, 100, PERCENT),
    retention: part(row.retentionMilli, 1000, RETENTION),
    storage: part(row.storageDeciC, 10, temperatureField(-40, 100)),
    keepsHours: row.keepsHours === null ? '' : String(row.keepsHours),
    note: row.note ?? '',
  }
}
