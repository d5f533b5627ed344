import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import type { BuildLine, TrialBuild } from '@/lib/drink/build'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import type { Store } from './store-part'
import { trialBuild, type CafeMoney } from './trial-build'

/** The sheet a trial was frozen with; null for a draft, and for a sheet that cannot be read any more. */
export function sheetOfItsDay(trial: Pick<TrialRow, 'frozenSheet'>): TrialBuild | null {
  const kept = trial.frozenSheet === null ? null : readTrialFile(trial.frozenSheet)
  return kept?.ok ? kept.value : null
}

/**
 * A frozen trial as it stood on its day, with the figures of that day; a draft as its ingredients stand now. What labels say
 * of allergens is always today's: an allergen found later must not hide behind an old sheet.
 */
export function buildAsOfItsDay(trial: TrialRow, store: Store, cafe: CafeMoney): TrialBuild {
  const today = trialBuild(trial, store, cafe)
  const kept = sheetOfItsDay(trial)
  if (!kept) return today
  return { ...kept, name: trial.name, allergenList: today.allergenList, lines: withLabelsOf(kept.lines, today.lines) }
}

/** A line whose counterpart is not there counts as unread: silence must never come from a line that was not found. */
function withLabelsOf(kept: readonly BuildLine[], today: readonly BuildLine[]): BuildLine[] {
  return kept.map((line) => {
    const now = today.find((one) => one.key === line.key)
    return {
      ...line,
      allergens: now?.allergens ?? line.allergens,
      labelRead: now?.labelRead ?? false,
      preparation: line.preparation && {
        ...line.preparation,
        inputs: withLabelsOf(line.preparation.inputs, now?.preparation?.inputs ?? []),
      },
    }
  })
}
