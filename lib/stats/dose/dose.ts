import { mean } from 'simple-statistics'
import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { checkLevel } from '../check-level'
import { studentQuantile, studentTwoSided } from '../distribution/student'
import { doseCurve, type DoseCurve, type DoseEffect, type DoseScore } from './dose-curve'
import { pairedDifference } from '../liking/paired-difference'
import { fiellerInterval, type TurningPoint } from './fieller'
import { byLabel } from '../label-order'
import { UnusableReadings, type Answer, type Interval } from '../outcome'
import { isAtMost } from '../multiplicity'

export type DoseShape = 'peak' | 'trough' | 'rising' | 'falling' | 'flat'

export interface DoseOptimum {
  readonly dose: number
  /** the curve's height there */
  readonly score: number
  readonly interval: Interval | null
  readonly intervalBasis: 'tasters' | 'model'
  readonly intervalModel: Interval | null
  /** the optimum lies among the doses tried */
  readonly inside: boolean
}

export interface DoseAnswer extends Answer<
  'dose',
  { readonly tasters: number; readonly doses: number; readonly scores: number; readonly missing: number }
> {
  readonly coefficients: readonly (DoseEffect & { readonly name: 'intercept' | 'dose' | 'dose²' })[]
  readonly optimum: DoseOptimum | null
  readonly lackOfFit: DoseCurve['lackOfFit']
  readonly shape: DoseShape
}

/**
 * Which dose is liked most, and how sure is that?
 *
 *     score ~ dose + dose² + (1 | taster);   optimum −b₁ / 2 b₂ where b₂ < 0 at 1 − level and it lies among the doses tried
 *
 * Tasters differ in their own optimum. Where everyone tasted every dose, the interval is Fieller's with the covariance of
 * the tasters' own coefficients over n, on n − 1 df; otherwise, and always beside it, with the model's own covariance.
 * The shape is judged so too: by each taster's own quadratic term and straight line (t, n − 1), otherwise by errors that believe only
 * in the tasters (CR2). Without a peak or a trough it is the sign of the straight line's slope where that differs from 0 at
 * 1 − level, else flat.
 *
 * @param rows   one per score, repeats allowed; null is a gap
 * @throws UnusableReadings  fewer than three different doses with a score
 * @throws RangeError  a dose or score that is not finite, a level outside (0, 1)
 *
 * Source   Fieller (1954), J. R. Stat. Soc. B 16, 175–185; Kuznetsova, Brockhoff & Christensen (2017)
 * Checked  test/reference/fieller-1954-dose.test.ts, test/reference/dose-shapes.test.ts
 * Limits   A parabola is an approximation: read lackOfFit. Never beyond the doses tried.
 */
export function dose(
  rows: readonly { readonly taster: string; readonly dose: number; readonly score: number | null }[],
  { level }: { readonly level: number },
): DoseAnswer {
  checkLevel(level)
  const scores = rows.flatMap(({ taster, dose: amount, score }): DoseScore[] => {
    demand(Number.isFinite(amount), `taster ${taster}: a dose must be finite, got ${amount}`)
    demand(score === null || Number.isFinite(score), `taster ${taster}: a score must be finite, got ${score}`)
    return score === null ? [] : [{ taster, dose: amount, score }]
  })
  const doses = [...new Set(scores.map((row) => row.dose))].sort((a, b) => a - b)
  if (doses.length < 3) {
    throw new UnusableReadings(`a curve needs at least three different doses, got ${doses.join(', ') || 'none'}`)
  }
  const tasters = [...new Set(scores.map(({ taster }) => taster))].sort(byLabel)
  const curve = doseCurve(scores)
  const notes = curveNotes(curve, tasters.length, doses.length)
  const shape = shapeOf(judgedBy(curve, scores, tasters, doses), doses, level)
  const [b0, b1, b2] = curve.coefficients
  return {
    verb: 'dose',
    level,
    counts: {
      tasters: tasters.length,
      doses: doses.length,
      scores: scores.length,
      missing: rows.length - scores.length,
    },
    method:
      'score ~ dose + dose² + (1 | taster) by REML, Satterthwaite’s degrees of freedom; optimum with Fieller’s interval; shape by the tasters’ own curves, or by errors by tasters (CR2)',
    coefficients: [
      { name: 'intercept', ...b0 },
      { name: 'dose', ...b1 },
      { name: 'dose²', ...b2 },
    ],
    optimum: shape === 'peak' ? optimumOf(curve, scores, tasters, doses, level, notes) : null,
    lackOfFit: curve.lackOfFit,
    shape,
    notes,
  }
}

function curveNotes({ why, singular, lackOfFit }: DoseCurve, tasters: number, doses: number): string[] {
  return [
    ...(tasters === 1 ? ['one taster: ordinary least squares, nothing is said about other tasters'] : []),
    ...(singular ? ['singular fit: the variance between tasters is estimated at zero'] : []),
    ...(why === 'saturated' ? ['as many coefficients as scores: no standard errors'] : []),
    ...(why === 'no residual' ? ['the curve meets every score: no standard errors and no tests'] : []),
    ...(doses === 3 ? ['three doses: a parabola meets their means, so its fit cannot be tested'] : []),
    ...(doses > 3 && lackOfFit === null ? ['the fit of the parabola cannot be tested'] : []),
  ]
}

/** What the shape is judged by: the bend, the slope of a straight line, and where the curve turns. */
interface Judged {
  readonly bend: { readonly estimate: number; readonly p: number | null }
  readonly slope: { readonly estimate: number; readonly p: number | null }
  readonly turn: number
}

function shapeOf({ bend, slope, turn }: Judged, doses: readonly number[], level: number): DoseShape {
  const [low, high] = [doses[0] ?? lost(), doses.at(-1) ?? lost()]
  const size = Math.abs(slope.estimate * (high - low)) + Math.abs(bend.estimate * (high - low) ** 2)
  // no spread at all between tasters leaves no p: then what is there is told, but for rounding
  const matters = ({ estimate, p }: Judged['bend'], over: number): boolean =>
    p === null ? Math.abs(estimate * over) > 1e-9 * size : isAtMost(p, 1 - level)
  if (matters(bend, (high - low) ** 2) && turn >= low && turn <= high) return bend.estimate < 0 ? 'peak' : 'trough'
  if (!matters(slope, high - low)) return 'flat'
  return slope.estimate < 0 ? 'falling' : 'rising'
}

/** By the tasters' own coefficients where all tasted every dose, otherwise by errors that believe only in the tasters. */
function judgedBy(
  curve: DoseCurve,
  scores: readonly DoseScore[],
  tasters: readonly string[],
  doses: readonly number[],
): Judged {
  const [, b1, b2] = curve.coefficients
  const turn = -b1.estimate / (2 * b2.estimate)
  const own = tasters.length > 1 ? ownCoefficients(scores, tasters, doses) : null
  if (own) {
    const tested = (of: readonly number[]) => {
      const { difference, p } = pairedDifference(Float64Array.from(of), 0.95, grainOf(of))
      return { estimate: difference ?? lost(), p }
    }
    return { bend: tested(own.map(({ bend }) => bend)), slope: tested(own.map(({ slope }) => slope)), turn }
  }
  const { byTasters } = curve
  if (byTasters) return { ...byTasters, turn }
  // one taster: what least squares say of their own answers
  return { bend: b2, slope: lineOf(scores), turn }
}

/** A spread of this size between numbers is rounding. */
const grainOf = (of: readonly number[]) => Number.EPSILON * Math.max(...of.map(Math.abs))

/** The straight line through one taster's scores. */
function lineOf(scores: readonly DoseScore[]): Judged['slope'] {
  const [x, y] = [mean(scores.map((one) => one.dose)), mean(scores.map(({ score }) => score))]
  const across = scores.reduce((sum, one) => sum + (one.dose - x) ** 2, 0)
  const estimate = scores.reduce((sum, one) => sum + (one.dose - x) * (one.score - y), 0) / across
  const rest = scores.reduce((sum, one) => sum + (one.score - y - estimate * (one.dose - x)) ** 2, 0)
  const df = scores.length - 2
  const se = Math.sqrt(rest / df / across)
  return { estimate, p: df >= 1 && se > 0 ? studentTwoSided(estimate / se, df) : null }
}

function optimumOf(
  { coefficients, covariance }: DoseCurve,
  scores: readonly DoseScore[],
  tasters: readonly string[],
  doses: readonly number[],
  level: number,
  notes: string[],
): DoseOptimum {
  const [b0, b1, b2] = coefficients
  const best = -b1.estimate / (2 * b2.estimate)
  const t = (df: number): number => studentQuantile((1 + level) / 2, df)
  const entry = (i: number, j: number): number => (covariance ? (covariance[i]?.[j] ?? lost()) : 0)
  const model = { b1: b1.estimate, b2: b2.estimate, v11: entry(1, 1), v12: entry(1, 2), v22: entry(2, 2) }
  const intervalModel = covariance && b2.df !== null ? fiellerInterval(model, t(b2.df)) : null
  const each = tasters.length > 1 ? ownCoefficients(scores, tasters, doses) : null
  const own = each && turningPointOf(each)
  const interval = own ? fiellerInterval(own, t(tasters.length - 1)) : intervalModel
  const unbounded = 'Fieller’s set is not bounded: the data do not close the optimum in'
  if (interval === null) notes.push(`interval: ${unbounded}`)
  if (own && intervalModel === null) notes.push(`intervalModel: ${unbounded}`)
  if (interval && (interval[0] < (doses[0] ?? lost()) || interval[1] > (doses.at(-1) ?? lost()))) {
    notes.push('the interval of the optimum reaches beyond the doses tried')
  }
  return {
    dose: best,
    score: b0.estimate + (b1.estimate * best) / 2,
    interval,
    intervalBasis: own ? 'tasters' : 'model',
    intervalModel,
    inside: best >= (doses[0] ?? lost()) && best <= (doses.at(-1) ?? lost()),
  }
}

interface OwnCoefficients {
  readonly linear: number
  readonly bend: number
  /** of a straight line */
  readonly slope: number
}

/** Each taster's own curve and straight line, or null where somebody missed a dose. */
function ownCoefficients(
  scores: readonly DoseScore[],
  tasters: readonly string[],
  doses: readonly number[],
): readonly OwnCoefficients[] | null {
  const cells = new Map<string, Map<number, number[]>>(tasters.map((taster) => [taster, new Map()]))
  for (const { taster, dose: amount, score } of scores) {
    const own = cells.get(taster)
    own?.set(amount, [...(own.get(amount) ?? []), score])
  }
  if ([...cells.values()].some((own) => own.size < doses.length)) return null
  const [linear, bend, slope] = coefficientWeights(doses)
  return [...cells.values()].map((own) => {
    const means = doses.map((amount) => mean((own.get(amount) ?? [0]).toSorted((x, y) => x - y)))
    const by = (weights: readonly number[]) => weights.reduce((sum, w, j) => sum + w * (means[j] ?? lost()), 0)
    return { linear: by(linear), bend: by(bend), slope: by(slope) }
  })
}

/** Mean and covariance / n of the tasters' own coefficients. */
function turningPointOf(each: readonly OwnCoefficients[]): TurningPoint {
  const n = each.length
  const column = (of: 'linear' | 'bend') => each.map((own) => own[of])
  const [linear, bend] = [column('linear'), column('bend')]
  const middle = (of: readonly number[]) => of.reduce((sum, x) => sum + x, 0) / n
  const [b1, b2] = [middle(linear), middle(bend)]
  const spread = (x: readonly number[], mx: number, y: readonly number[], my: number): number =>
    x.reduce((sum, one, at) => sum + (one - mx) * ((y[at] ?? lost()) - my), 0) / (n - 1) / n
  return {
    b1,
    b2,
    v11: spread(linear, b1, linear, b1),
    v12: spread(linear, b1, bend, b2),
    v22: spread(bend, b2, bend, b2),
  }
}

/** Least-squares b₁ and b₂, and the slope of a straight line, as weights of the means at the doses, through orthogonal polynomials. */
function coefficientWeights(doses: readonly number[]): [number[], number[], number[]] {
  const centre = mean([...doses])
  const linear = doses.map((x) => x - centre)
  const squares = linear.reduce((sum, x) => sum + x * x, 0)
  const skew = linear.reduce((sum, x) => sum + x ** 3, 0) / squares
  const bend = linear.map((x) => x * x - skew * x - squares / doses.length)
  const bendSquares = bend.reduce((sum, x) => sum + x * x, 0)
  const b2 = bend.map((x) => x / bendSquares)
  const line = linear.map((x) => x / squares)
  return [line.map((w, j) => w - (b2[j] ?? lost()) * (skew + 2 * centre)), b2, line]
}
