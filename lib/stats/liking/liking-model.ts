import { lost } from '@/lib/base/lost'
import { averagedRepeats } from '../model/averaged-repeats'
import type { DegreesMethod, FixedEffects } from '../model/fixed-effects'
import { kenwardRoger } from '../model/kenward-roger'
import { fitMixedModel } from '../model/mixed-model'
import { solveSemidefinite, type SquareMatrix } from '../algebra/positive-definite'
import { satterthwaite } from '../model/satterthwaite'
import { scoreDesign, type ScoreDesign, type Terms } from './score-design'
import type { ScoreTable } from './score-table'

/** How a taster's repeated scores for one cup enter the model. */
export type Repeats = 'none' | 'averaged' | 'own variance'

export interface LikingModel {
  readonly design: ScoreDesign
  /** XᵀX */
  readonly gram: SquareMatrix
  readonly beta: Float64Array
  /** null where nothing can be tested; `why` says which way */
  readonly effects: FixedEffects | null
  readonly why: null | 'aliased' | 'saturated' | 'no residual'
  readonly variance: {
    readonly taster: number | null
    readonly tasterByCup: number | null
    readonly residual: number | null
  }
  readonly remlCriterion: number | null
  readonly singular: boolean
}

/**
 * Which mixed model do these liking scores follow?
 *
 *     score ~ cup [+ session] [+ position] [+ cup before] + (1 | taster) [+ (1 | taster:cup)]
 *
 * @param repeats  'averaged' turns repeated scores into one before fitting; 'own variance' adds taster by cup
 * @returns effects in the scores' own unit, less the table's centre
 *
 * Source   Kuznetsova, Brockhoff and Christensen (2017), J. Stat. Softw. 82(13); ISO 11136:2014 for the layout.
 * Checked  test/reference/acceptance-r-cases.test.ts
 * Limits   repeats without any spread of their own: the model is that of their means, which is the limit for σ² → 0.
 */
export function likingModel(table: ScoreTable, repeats: Repeats, method: DegreesMethod, terms: Terms): LikingModel {
  const every = scoreDesign(table, terms)
  const sessions = table.sessions.length > 1
  const design =
    repeats === 'averaged' ? averagedRepeats(every, (row) => (sessions ? (table.sessionOf[row] ?? lost()) : 0)) : every
  const gram = gramMatrix(design)
  const { dependent } = solveSemidefinite(gram, new Float64Array(design.width - 1), design.width - 1)
  if (dependent.length > 0) return withoutTest(design, gram, 'aliased')

  const nested = repeats === 'own variance'
  const fit = fitMixedModel(design, nested, table.grain)
  if (fit.outcome === 'no residual' && nested) return ofCellMeans(table, design, method)
  if (fit.outcome !== 'fitted') return withoutTest(design, gram, fit.outcome, fit.beta, fit.taster, nested)

  const [residual = 0, taster = 0, tasterByCup = null] = fit.variances
  return {
    design,
    gram,
    beta: fit.beta,
    effects: method === 'satterthwaite' ? satterthwaite(fit) : kenwardRoger(fit),
    why: null,
    variance: { taster, tasterByCup, residual },
    remlCriterion: fit.curve.deviance,
    singular: fit.singular,
  }
}

function ofCellMeans(table: ScoreTable, every: ScoreDesign, method: DegreesMethod): LikingModel {
  const design = averagedRepeats(every, () => 0)
  const gram = gramMatrix(design)
  const fit = fitMixedModel(design, false, table.grain)
  if (fit.outcome !== 'fitted') return withoutTest(design, gram, fit.outcome, fit.beta, fit.taster, true)
  const [tasterByCup = 0, taster = 0] = fit.variances
  return {
    design,
    gram,
    beta: fit.beta,
    effects: method === 'satterthwaite' ? satterthwaite(fit) : kenwardRoger(fit),
    why: null,
    variance: { taster, tasterByCup, residual: 0 },
    remlCriterion: null,
    singular: true,
  }
}

function withoutTest(
  design: ScoreDesign,
  gram: SquareMatrix,
  why: 'aliased' | 'saturated' | 'no residual',
  beta: Float64Array = new Float64Array(design.width - 1),
  taster: number | null = null,
  nested = false,
): LikingModel {
  const zero = why === 'no residual' ? 0 : null
  return {
    design,
    gram,
    beta,
    effects: null,
    why,
    variance: { taster, tasterByCup: nested ? zero : null, residual: zero },
    remlCriterion: null,
    singular: why === 'no residual',
  }
}

function gramMatrix({ rows, width }: ScoreDesign): SquareMatrix {
  const p = width - 1
  const matrix = new Float64Array(p * p)
  for (let from = 0; from < rows.length; from += width) {
    for (let i = 0; i < p; i++) {
      const left = rows[from + i] ?? lost()
      if (left === 0) continue
      for (let j = 0; j < p; j++) matrix[i * p + j] = (matrix[i * p + j] ?? lost()) + left * (rows[from + j] ?? lost())
    }
  }
  return matrix
}
