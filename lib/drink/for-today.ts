import { USUAL_SCALES, type Scales } from './house-scales'
import type { TrialBuild } from './trial'

/** A dose that holds the same sugar from another batch than the sheet was written with; nobody has tasted it. */
export interface CorrectedDose {
  /** number of the batch that is poured */
  readonly batch: number
  readonly grams: number
  /** what the sheet asks for */
  readonly sheetGrams: number
}

/** A dose that nobody can say: the °Bx of the batch that is poured, or of the one it was written for, is not known. */
export interface UnreadDose {
  /** number of the batch that is poured */
  readonly batch: number
  /** what the sheet asks for, of the batch that it was written for */
  readonly sheetGrams: number
}

/** What is otherwise beside the scale today than on the sheet, by key of line. */
export interface ForToday {
  readonly corrected: Readonly<Record<string, CorrectedDose>>
  readonly unread: Readonly<Record<string, UnreadDose>>
  /** g that one press of its pump gives, where the house measured it */
  readonly pressGrams: Readonly<Record<string, number>>
  /** that the house weighs on */
  readonly scales: Scales
}

/** Nothing is otherwise, no pump was measured, no scale named. */
export const AS_ON_SHEET: ForToday = { corrected: {}, unread: {}, pressGrams: {}, scales: USUAL_SCALES }

/**
 * What is weighed today?
 *
 *     of a corrected line its corrected grams;  a tolerance said for the dose of the sheet goes with that dose
 *
 * Source   `doseFromOtherBatch`
 * Checked  test/unit/drink/for-today.test.ts
 */
export function withCorrectedDoses(build: TrialBuild, { corrected }: Pick<ForToday, 'corrected'>): TrialBuild {
  const lines = build.lines.map((line) => {
    const dose = corrected[line.key]
    return dose ? { ...line, targetGrams: dose.grams, toleranceGrams: null, typed: null } : line
  })
  return { ...build, lines }
}
