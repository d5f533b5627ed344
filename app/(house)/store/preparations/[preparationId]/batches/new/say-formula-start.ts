import type { FormulaStart } from '@/lib/tasks/store/read-formula'

/** Which version it begins with, and what cannot be filled in. */
export function sayFormulaStart({ row, gives, inputs }: FormulaStart): string {
  const scaled = gives ? '' : ' What it gives is not known, so these are its own amounts.'
  const lacking = inputs.flatMap(({ part, name }) => (part === null ? name : []))
  const first = lacking.length === 0 ? '' : ` No batch of ${lacking.join(', ')} is in date: make that first.`
  return `Begun from formula version ${row.version}: write down what the scale really showed.${scaled}${first}`
}
