import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/build'
import { readKeptSheet } from '@/lib/forms/trial-of-file'
import type { Store } from './store-part'
import { trialBuild, type CafeMoney } from './trial-build'

/** The sheet a trial was frozen with; null for a draft, and for a sheet that cannot be read any more. */
export function sheetOfItsDay(trial: Pick<TrialRow, 'frozenSheet'>): TrialBuild | null {
  const kept = trial.frozenSheet === null ? null : readKeptSheet(trial.frozenSheet)
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
function withLabelsOf(kept: readonly BuildLine[], today: readonly BuildLine[], done = new Relabelled()): BuildLine[] {
  return kept.map((line) => {
    const now = today.find((one) => one.key === line.key)
    return {
      ...line,
      allergens: now?.allergens ?? line.allergens,
      labelRead: now?.labelRead ?? false,
      preparation: line.preparation && done.of(line.preparation, now?.preparation ?? null),
    }
  })
}

/** A preparation poured into several lines stays one, so that whoever works it out does so once. */
class Relabelled {
  readonly #done = new Map<Preparation, Map<Preparation | null, Preparation>>()

  of(kept: Preparation, today: Preparation | null): Preparation {
    const before = this.#done.get(kept) ?? new Map<Preparation | null, Preparation>()
    this.#done.set(kept, before)
    const ready = before.get(today)
    if (ready) return ready
    const made = { ...kept, inputs: withLabelsOf(kept.inputs, today?.inputs ?? [], this) }
    before.set(today, made)
    return made
  }
}
