import { lost } from '@/lib/base/lost'
import type { CupMeans } from './acceptance-answer'
import { around, estimateContrast, studentReach } from '../model/contrast'
import type { LikingModel } from './liking-model'
import { marginalMean } from './marginal-mean'
import { cupColumn, type TasterMeans } from './taster-means'

/**
 * How well is each cup liked: plainly over its tasters, and by the model as if everybody had scored every cup?
 *
 *     mean ± t(n − 1) · s/√n over taster means;   estimate ± t(df) · se, the marginal mean
 *
 * @param model   null where there is none: the estimate is then the plain mean
 * @param centre  what was taken off the scores
 *
 * Source   Student (1908), Biometrika 6(1), 1–25; Searle, Speed and Milliken (1980), Am. Stat. 34(4), 216–221.
 * Checked  test/reference/acceptance-r-cases.test.ts
 * Limits   the plain means of an incomplete panel compare different tasters; the estimates do not.
 */
export function cupMeans(
  cups: readonly string[],
  model: LikingModel | null,
  means: TasterMeans,
  { centre, grain }: { readonly centre: number; readonly grain: number },
  level: number,
): readonly CupMeans[] {
  return cups.map((cup, place) => {
    const { n, mean, sd } = spread(cupColumn(means, place), grain)
    const plain = {
      cup,
      n,
      mean: centre + mean,
      sd,
      meanInterval: sd === null ? null : around(centre + mean, sd / Math.sqrt(n), studentReach(level, n - 1)),
    }
    if (!model) return { ...plain, estimate: centre + mean, se: null, df: null, interval: null }
    const weights = marginalMean(model.design, 'cup', place)
    if (model.effects) {
      const { estimate, se, df, interval } = estimateContrast(model.effects, weights, level)
      const [low, high] = interval ?? [0, 0]
      return { ...plain, estimate: centre + estimate, se, df, interval: interval && [centre + low, centre + high] }
    }
    const estimate = weights.reduce((sum, weight, j) => sum + weight * (model.beta[j] ?? lost()), 0)
    const { taster } = model.variance
    const se = taster === null ? null : Math.sqrt(taster / means.tasters)
    return { ...plain, estimate: centre + estimate, se, df: null, interval: null }
  })
}

/** Mean and sample standard deviation, shifted by the first reading so that equal readings have none at all. */
function spread(readings: Float64Array, grain: number): { n: number; mean: number; sd: number | null } {
  const n = readings.length
  const first = readings[0] ?? lost()
  let shift = 0
  for (const reading of readings) shift += reading - first
  const mean = first + shift / n
  if (n < 2) return { n, mean, sd: null }
  let squares = 0
  for (const reading of readings) squares += (reading - mean) ** 2
  const sd = Math.sqrt(squares / (n - 1))
  return { n, mean, sd: sd <= 4 * grain ? 0 : sd }
}
