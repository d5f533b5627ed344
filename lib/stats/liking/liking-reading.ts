import { checkConnectedCups } from './connected-cups'
import type { DegreesMethod } from '../model/fixed-effects'
import { likingModel, type LikingModel, type Repeats } from './liking-model'
import { robustErrors, type RobustError } from '../model/robust-errors'
import type { AcceptanceRow } from './acceptance-row'
import { scoreTable, type ScoreTable } from './score-table'
import { tasterMeans, type TasterMeans } from './taster-means'

/** Scores as they stand, the model fitted to them, and errors that believe only in the tasters. */
export interface LikingReading {
  readonly table: ScoreTable
  readonly means: TasterMeans
  readonly repeats: Repeats
  /** null with one taster or one cup */
  readonly model: LikingModel | null
  /** null where there is no model, or where it leaves no covariance to work with */
  readonly errors: ((contrast: Float64Array) => RobustError) | null
}

export interface ReadingOptions {
  readonly df?: DegreesMethod
  /** the readings carry a replicate column: any repeat then has its own variance */
  readonly replicated?: boolean
  /** sessions are a factor of the model */
  readonly session?: boolean
}

/**
 * What model do these scores follow, and how far can it be believed?
 *
 *     working covariance: the model's own; a residual estimated at 0 enters as a millionth of all variance, so that the
 *     degrees of freedom are the limit and not rounding
 *
 * @throws UnusableReadings  no scores, or cups that nobody connects
 *
 * Source   the parts' own
 * Checked  test/unit/stats/liking/liking-reading.test.ts
 */
export function likingReading(rows: readonly AcceptanceRow[], options: ReadingOptions): LikingReading {
  const table = scoreTable(rows, options.session ?? false)
  checkConnectedCups(table)
  const means = tasterMeans(table)
  const repeats = repeatsOf(means, options.replicated ?? false)
  const alone = table.cups.length === 1 || means.tasters === 1
  const model = alone
    ? null
    : likingModel(table, repeats, options.df ?? 'satterthwaite', { position: false, carryOver: false })
  return { table, means, repeats, model, errors: model && errorsOf(model) }
}

/** The contract's rule: a replicate column, or repeats in at least six pairs, makes repeats a level of their own. */
function repeatsOf({ repeated }: TasterMeans, replicated: boolean): Repeats {
  if (repeated === 0) return 'none'
  return replicated || repeated >= 6 ? 'own variance' : 'averaged'
}

function errorsOf({ design, beta, variance, why }: LikingModel): LikingReading['errors'] {
  if (why === 'saturated' || why === 'aliased') return null
  const [taster, tasterByCup] = [variance.taster ?? 0, variance.tasterByCup ?? 0]
  const rest = taster + tasterByCup
  const residual = variance.residual || (rest > 0 ? 1e-6 * rest : 1)
  return robustErrors(design, beta, { residual, taster, tasterByCup })
}
