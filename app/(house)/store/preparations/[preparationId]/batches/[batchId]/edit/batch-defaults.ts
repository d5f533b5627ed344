import { clockIn } from '@/lib/base/zone-time'
import type { BatchSheet } from '@/lib/tasks/read-preparation'

const part = (value: number | null, of: number) => (value === null ? '' : String(value / of).replace('-', '−'))

/** The batch as its form fields hold it: what was typed stays as it was typed. */
export function batchDefaults({ row, steps }: BatchSheet, zone: string) {
  return {
    inputs: row.inputs.map((input) => ({
      part: input.ingredientId ? `ingredient:${input.ingredientId}` : `batch:${input.inputBatchId}`,
      amount: input.typed,
      unit: input.unit,
      density: part(input.microdensity, 1_000_000),
      temperature: part(input.temperatureDeciC, 10),
    })),
    steps: steps.map((step) => ({ text: step.text, minutes: step.minutes === undefined ? '' : String(step.minutes) })),
    output: part(row.outputMg, 1000),
    brix: part(row.brixHundredths, 100),
    solids: part(row.solidsHundredths, 100),
    density: part(row.microdensity, 1_000_000),
    madeAt: row.madeAt ? clockIn(row.madeAt, zone) : '',
    discardAt: row.discardAt ? clockIn(row.discardAt, zone) : '',
    note: row.note ?? '',
  }
}
