import type { BatchRecord } from '@/lib/tasks/bar/read-batch-record'

/** What it begins with, and what cannot be filled in. */
export function sayRecord({ from, inputs }: BatchRecord): string {
  const show = 'write down what the scale really showed, and weigh what came out.'
  const begun =
    from === null
      ? `Nothing to begin from: ${show}`
      : `Begun ${from.by === 'formula' ? `from formula version ${from.number}` : `as batch ${from.number}`}: ${show}`
  const lacking = inputs.flatMap(({ part, name }) => (part === null ? name : []))
  return lacking.length === 0 ? begun : `${begun} No batch of ${lacking.join(', ')} is in date: record that first.`
}
