import { lost } from '@/lib/base/lost'
import { mean } from 'simple-statistics'
import { fUpper } from '../distribution/f'
import { studentTwoSided } from '../distribution/student'
import type { FixedEffects } from '../model/fixed-effects'
import { fitMixedModel } from '../model/mixed-model'
import { invertPositiveDefinite, quadratic, solveSemidefinite } from '../algebra/positive-definite'
import { robustErrors, type RobustError } from '../model/robust-errors'
import { satterthwaite } from '../model/satterthwaite'
import type { DesignRows } from '../model/variance-strata'

export interface DoseScore {
  readonly taster: string
  readonly dose: number
  readonly score: number
}

/** se and p are null where nothing is left to judge by. */
export interface DoseEffect {
  readonly estimate: number
  readonly se: number | null
  readonly df: number | null
  readonly p: number | null
}

export interface DoseCurve {
  /** of 1, dose and dose² in the raw dose */
  readonly coefficients: readonly [DoseEffect, DoseEffect, DoseEffect]
  /** covariance of the three, or null */
  readonly covariance: readonly (readonly number[])[] | null
  /** the quadratic term, and the slope of a straight line fitted in its place, with errors that believe only in the tasters */
  readonly byTasters: { readonly bend: DoseEffect; readonly slope: DoseEffect } | null
  readonly lackOfFit: { readonly F: number; readonly df1: number; readonly df2: number; readonly p: number } | null
  readonly why: null | 'no residual' | 'saturated'
  readonly singular: boolean
}

/**
 * Which curve do liking scores follow over the dose, tasters being a random sample?
 *
 *     score = b₀ + b₁ x + b₂ x² + taster + rest,   by REML, Satterthwaite's degrees of freedom
 *     lack of fit: the doses as a factor beside 1, x, x²; F of what the factor adds, on m − 3 of m doses
 *
 * Fitted in z = (x − middle) / half range, where the columns are far from collinear, and turned back to the raw dose.
 *
 * @param scores  at least three different doses, complete rows
 * @returns       with one taster, ordinary least squares
 *
 * Source   Kuznetsova, Brockhoff & Christensen (2017), J. Stat. Softw. 82(13); lack of fit: Draper & Smith, Applied
 *          Regression Analysis, 2.1
 * Checked  test/reference/fieller-1954-dose.test.ts
 */
export function doseCurve(scores: readonly DoseScore[]): DoseCurve {
  const sorted = scores.toSorted((x, y) =>
    x.taster < y.taster ? -1 : x.taster > y.taster ? 1 : x.dose - y.dose || x.score - y.score,
  )
  const doses = [...new Set(scores.map(({ dose }) => dose))].sort((a, b) => a - b)
  const low = doses[0] ?? lost()
  const high = doses.at(-1) ?? lost()
  const middle = (low + high) / 2
  const half = (high - low) / 2
  const level = mean(sorted.map(({ score }) => score).toSorted((a, b) => a - b))
  const columns = (dose: number): number[] => [1, (dose - middle) / half, ((dose - middle) / half) ** 2]
  const fit = fitRows(sorted, columns, level)
  const c = middle / half
  const [constant, linear, bend] = [
    [1, -c, c * c],
    [0, 1 / half, (-2 * c) / half],
    [0, 0, 1 / half ** 2],
  ].map((row) => Float64Array.from(row)) as [Float64Array, Float64Array, Float64Array]
  const { effects } = fit
  const raw = [constant, linear, bend]
  const extra = doses.slice(1, -2)
  return {
    coefficients: [judge(fit, constant, level), judge(fit, linear), judge(fit, bend)],
    covariance: effects && raw.map((x) => raw.map((y) => quadratic(x, effects.covariance, y, 3))),
    byTasters: byTasters(
      fit,
      fitRows(sorted, (dose) => columns(dose).slice(0, 2), level),
      bend,
      half,
    ),
    lackOfFit:
      extra.length > 0 && effects
        ? addedDoses(
            fitRows(sorted, (dose) => [...columns(dose), ...extra.map((x) => Number(x === dose))], level),
            extra.length,
          )
        : null,
    why: fit.why,
    singular: fit.singular,
  }
}

interface RowsFit {
  readonly robust: ((contrast: Float64Array) => RobustError) | null
  readonly beta: Float64Array
  readonly effects: FixedEffects | null
  readonly why: null | 'no residual' | 'saturated'
  readonly singular: boolean
}

function fitRows(sorted: readonly DoseScore[], columns: (dose: number) => number[], level: number): RowsFit {
  const tasters = [...new Set(sorted.map(({ taster }) => taster))]
  const places = new Map(tasters.map((taster, at) => [taster, at]))
  const width = columns(0).length + 1
  const rows = Float64Array.from(sorted.flatMap(({ dose, score }) => [...columns(dose), score - level]))
  const tasterOf = Int32Array.from(sorted, ({ taster }) => places.get(taster) ?? lost())
  const grain = Number.EPSILON * sorted.reduce((most, { score }) => Math.max(most, Math.abs(score)), 0)
  const design = { rows, width, tasterOf, cupOf: new Int32Array(sorted.length) }
  if (tasters.length < 2) return leastSquares(design, grain)
  const fit = fitMixedModel(design, false, grain)
  if (fit.outcome !== 'fitted')
    return { beta: fit.beta, effects: null, why: fit.outcome, singular: false, robust: null }
  const [residual = 0, taster = 0] = fit.variances
  // a residual of nothing would leave no covariance to work with
  const working = { residual: Math.max(residual, (residual + taster) * 1e-6), taster, tasterByCup: 0 }
  const robust = working.residual > 0 ? robustErrors(design, fit.beta, working) : null
  return { beta: fit.beta, effects: satterthwaite(fit), why: null, singular: fit.singular, robust }
}

function leastSquares({ rows, width }: DesignRows, grain: number): RowsFit {
  const p = width - 1
  const n = rows.length / width
  const matrix = new Float64Array(p * p)
  const right = new Float64Array(p)
  for (let at = 0; at < rows.length; at += width) {
    for (let i = 0; i < p; i += 1) {
      right[i] = (right[i] ?? lost()) + (rows[at + i] ?? lost()) * (rows[at + p] ?? lost())
      for (let j = 0; j < p; j += 1)
        matrix[i * p + j] = (matrix[i * p + j] ?? lost()) + (rows[at + i] ?? lost()) * (rows[at + j] ?? lost())
    }
  }
  const beta = solveSemidefinite(matrix, right, p).solution
  let squares = 0
  for (let at = 0; at < rows.length; at += width) {
    squares += beta.reduce((rest, b, j) => rest - b * (rows[at + j] ?? lost()), rows[at + p] ?? lost()) ** 2
  }
  const inverse = invertPositiveDefinite(matrix, p)?.inverse
  if (n <= p || !inverse) return { beta, effects: null, why: 'saturated', singular: false, robust: null }
  if (squares <= n * (16 * grain) ** 2)
    return { beta, effects: null, why: 'no residual', singular: false, robust: null }
  const covariance = inverse.map((x) => (x * squares) / (n - p))
  const df = (): number => n - p
  const test: FixedEffects['test'] = (contrasts) => {
    const q = contrasts.length
    const joint = Float64Array.from(contrasts.flatMap((x) => contrasts.map((y) => quadratic(x, covariance, y, p))))
    const undone = invertPositiveDefinite(joint, q)?.inverse
    const estimates = contrasts.map((x) => x.reduce((sum, weight, j) => sum + weight * (beta[j] ?? lost()), 0))
    const F = undone ? quadratic(estimates, undone, estimates, q) / q : null
    return { F, df1: q, df2: n - p, p: F === null ? null : fUpper(F, q, n - p) }
  }
  return { beta, effects: { beta, covariance, df, test }, why: null, singular: false, robust: null }
}

function byTasters(curve: RowsFit, line: RowsFit, bend: Float64Array, half: number): DoseCurve['byTasters'] {
  const slope = Float64Array.of(0, 1 / half)
  const [bent, sloped] = [judgeRobust(curve, bend), judgeRobust(line, slope)]
  return bent && sloped && { bend: bent, slope: sloped }
}

function judgeRobust({ beta, robust }: RowsFit, contrast: Float64Array): DoseEffect | null {
  if (!robust) return null
  const estimate = contrast.reduce((sum, weight, j) => sum + weight * (beta[j] ?? lost()), 0)
  const { se, df } = robust(contrast)
  return { estimate, se, df, p: df === null || !(se > 0) ? null : studentTwoSided(estimate / se, df) }
}

function judge({ beta, effects }: RowsFit, contrast: Float64Array, shift = 0): DoseEffect {
  const estimate = shift + contrast.reduce((sum, weight, j) => sum + weight * (beta[j] ?? lost()), 0)
  if (!effects) return { estimate, se: null, df: null, p: null }
  const se = Math.sqrt(quadratic(contrast, effects.covariance, contrast, beta.length))
  const df = effects.df(contrast)
  return { estimate, se, df, p: df === null || !(se > 0) ? null : studentTwoSided(estimate / se, df) }
}

function addedDoses({ beta, effects }: RowsFit, added: number): DoseCurve['lackOfFit'] {
  if (!effects) return null
  const rows = Array.from({ length: added }, (_, i) => Float64Array.from(beta, (_b, j) => Number(j === 3 + i)))
  const { F, df1, df2, p } = effects.test(rows)
  return F === null || df2 === null || p === null ? null : { F, df1, df2, p }
}
