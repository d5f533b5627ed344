import type { TrialBuild } from '@/lib/drink/trial'

/** At which cost level a trial was made, and what that put into the glass; null while no level is said. */
export function sayLevel({ level, lines, beside }: Pick<TrialBuild, 'level' | 'lines' | 'beside'>): string | null {
  if (level === null) return null
  const swapped = [
    ...lines.flatMap(({ name, insteadOf }) => (insteadOf === null ? [] : [`${name} in place of ${insteadOf}`])),
    ...beside.flatMap(({ line, insteadOf, why }) =>
      why === 'used' ? [`${line.name} in place of ${insteadOf}, which this sheet names`] : [],
    ),
  ]
  return swapped.length > 0
    ? `Made at the cost level “${level}”: ${swapped.join('; ')}.`
    : `Made at the cost level “${level}”: every line as the sheet names it.`
}
