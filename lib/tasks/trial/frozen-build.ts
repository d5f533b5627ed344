import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import type { BesideLine, BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { madeAt } from '@/lib/drink/cost-level'
import { readFrozenSheet, type FrozenSheet } from '@/lib/forms/frozen-sheet'
import type { Store } from '../store/store-part'
import { alternativesOf, sheetBuild, trialBuild } from './trial-build'
import type { CafeMoney } from '../world'

/** What a trial was frozen with; null for a draft, and for a text that is no sheet. Read by its shape, never checked again. */
export function frozenWith(trial: Pick<TrialRow, 'frozenSheet'>): FrozenSheet | null {
  const kept = trial.frozenSheet === null ? null : readFrozenSheet(trial.frozenSheet)
  return kept?.ok ? kept.value : null
}

/** The sheet a trial was frozen with. */
const sheetOfItsDay = (trial: Pick<TrialRow, 'frozenSheet'>) => frozenWith(trial)?.build ?? null

/**
 * The level that the sheet of its day names: what was in that glass is settled. A trial that froze before anybody said may
 * still be told.
 */
export const levelOfItsDay = (trial: Pick<TrialRow, 'frozenSheet'>) => sheetOfItsDay(trial)?.level ?? null

/**
 * A frozen trial as it stood on its day: amounts, figures of its ingredients and prices are those of that day; a draft as its ingredients stand now. What labels say
 * of allergens is always today's: an allergen found later must not hide behind an old sheet. Where the sheet of the day names
 * another ingredient than its cost level used, the one that was used stands beside, and both count for allergens.
 */
export function buildAsOfItsDay(trial: TrialRow, store: Store, cafe: CafeMoney): TrialBuild {
  const today = trialBuild(trial, store, cafe)
  const kept = sheetOfItsDay(trial)
  if (!kept) return today
  const named = sheetBuild(trial, store, cafe)
  const done = new Relabelled()
  const its = alternativesOf(trial, store).find(({ level }) => level.name === kept.level)?.level
  const madeThen = its ? madeAt(named, its, alternativesOf(trial, store)) : named
  // A line that stood in the place of another is what that level uses; any other is the trial's own, whatever is said now.
  const sameAs = ({ key, insteadOf }: BuildLine) => {
    const line = find(insteadOf === null ? named : madeThen, key)
    return line && (line.insteadOf === null) === (insteadOf === null) ? line : undefined
  }
  return {
    ...kept,
    name: trial.name,
    level: today.level,
    allergenList: today.allergenList,
    lines: kept.lines.map((line) => withLabelOf(line, sameAs(line), done)),
    beside: [
      ...today.beside,
      ...kept.lines.flatMap((line): BesideLine[] => {
        const used = find(today, line.key)
        if (!used || used.name === sameAs(line)?.name) return []
        return [{ line: used, insteadOf: line.name, level: today.level, why: 'used' }]
      }),
    ],
  }
}

const find = (build: TrialBuild, key: string) => build.lines.find((line) => line.key === key)

/** A line whose counterpart is not there counts as unread: silence must never come from a line that was not found. */
function withLabelOf(kept: BuildLine, now: BuildLine | undefined, done: Relabelled): BuildLine {
  return {
    ...kept,
    allergens: now?.allergens ?? kept.allergens,
    labelRead: now?.labelRead ?? false,
    preparation: kept.preparation && done.of(kept.preparation, now?.preparation ?? null),
  }
}

/** A preparation poured into several lines stays one, so that whoever works it out does so once. */
class Relabelled {
  readonly #done = new Map<Preparation, Map<Preparation | null, Preparation>>()

  of(kept: Preparation, today: Preparation | null): Preparation {
    const before = this.#done.get(kept) ?? new Map<Preparation | null, Preparation>()
    this.#done.set(kept, before)
    const ready = before.get(today)
    if (ready) return ready
    const inputs = kept.inputs.map((line) => {
      const now = today?.inputs.find((one) => one.key === line.key)
      return withLabelOf(line, now, this)
    })
    const made = { ...kept, inputs }
    before.set(today, made)
    return made
  }
}
