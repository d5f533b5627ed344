import { lost } from '@/lib/base/lost'
import type { CupPair, ModelPair } from './acceptance-answer'
import { around, estimateContrast, studentReach } from '../model/contrast'
import { studentTwoSided } from '../distribution/student'
import { studentizedRangeQuantile, studentizedRangeUpper } from '../distribution/studentized-range'
import { wilson } from '../interval'
import type { LikingReading } from './liking-reading'
import { cupDifference } from './marginal-mean'
import { holmWithGaps } from '../multiplicity'
import { onDemand } from './on-demand'
import { pairedDifference } from './paired-difference'
import { signedRank } from '../rank/signed-rank'
import { tasterDifferences } from './taster-means'

/**
 * How do the cups compare two by two, by the model and by the tasters' signs and ranks?
 *
 *     effect size: d / √(taster-by-cup + residual variance);   Holm over all pairs that have a p;   signed ranks on demand
 *
 * Source   Holm (1979), Scand. J. Stat. 6(2), 65–70.
 * Checked  test/reference/acceptance-r-cases.test.ts
 */
export function modelPairs({ table, means, model }: LikingReading, level: number): readonly ModelPair[] {
  const { cups } = table
  const scale = Math.sqrt((model?.variance.tasterByCup ?? 0) + (model?.variance.residual ?? 0))
  const drafts = pairPlaces(cups.length).map(([i, j]) => {
    const differences = tasterDifferences(means, i, j, table.grain)
    const contrast = model?.effects
      ? estimateContrast(model.effects, cupDifference(model.design, i, j), level)
      : {
          ...NOTHING,
          estimate: plainDifference({ table, means, model }, i, j),
          se: model?.why === 'no residual' ? 0 : null,
        }
    return { a: cups[i] ?? '', b: cups[j] ?? '', differences, contrast }
  })
  const holm = holmWithGaps(drafts.map(({ contrast }) => contrast.p))
  return drafts.map(({ a, b, differences, contrast }, at) => {
    const { estimate: difference, se, df, t, p, interval } = contrast
    const ranks = onDemand(() => (differences.length > 0 ? signedRank([...differences]) : null))
    return {
      a,
      b,
      difference,
      se,
      df,
      t,
      p,
      pHolm: holm[at] ?? null,
      interval,
      effectSize: scale > 0 ? difference / scale : null,
      ...preference(differences, level),
      get signedRank() {
        return ranks()
      },
    }
  })
}

/**
 * The same with what the tasters' own differences and errors say, and over all pairs by Tukey.
 *
 *     Tukey: p = P(q(K, df) ≥ √2 |t|), interval d ± q(K, df; level)/√2 · se, each pair with its own df
 *     robust: d ± t(df, (1 + level)/2) · se with the error by tasters, this pair alone
 *
 * Tukey's numbers and the signed ranks are reckoned when they are first read: few readers ask, and they cost more than all the rest.
 *
 * Source   Tukey (1953) and Kramer (1956), Biometrics 12(3), 307–310.
 * Checked  test/reference/acceptance-r-cases.test.ts, test/reference/claims-r-cases.test.ts
 * Limits   with unequal standard errors Tukey–Kramer errs on the safe side.
 */
export function cupPairs(reading: LikingReading, level: number): readonly CupPair[] {
  const { table, means, model, errors } = reading
  const places = pairPlaces(table.cups.length)
  const paired = places.map(([i, j]) => {
    return pairedDifference(tasterDifferences(means, i, j, table.grain), level, table.grain)
  })
  const holm = holmWithGaps(paired.map(({ p }) => p))
  return modelPairs(reading, level).map((pair, at) => {
    const [i = 0, j = 0] = places[at] ?? []
    const own = paired[at]
    const error = model && errors ? errors(cupDifference(model.design, i, j)) : null
    const tukey = onDemand(() => byTukey(pair, table.cups.length, level))
    return {
      a: pair.a,
      b: pair.b,
      difference: pair.difference,
      se: pair.se,
      df: pair.df,
      t: pair.t,
      p: pair.p,
      pHolm: pair.pHolm,
      get pTukey() {
        return tukey().p
      },
      interval: pair.interval,
      get intervalTukey() {
        return tukey().interval
      },
      effectSize: pair.effectSize,
      robust: judged(pair.difference, error, table.grain, level),
      paired: own && own.p !== null ? { ...own, pHolm: holm[at] ?? null } : null,
      preferA: pair.preferA,
      preferB: pair.preferB,
      tied: pair.tied,
      shareA: pair.shareA,
      get signedRank() {
        return pair.signedRank
      },
    }
  })
}

/** @returns the places of both cups of every pair, first before second */
export function pairPlaces(cups: number): readonly (readonly [i: number, j: number])[] {
  return Array.from({ length: cups }, (_, i) => i).flatMap((i) =>
    Array.from({ length: cups - i - 1 }, (_, offset) => [i, i + 1 + offset] as const),
  )
}

const NOTHING = { df: null, t: null, p: null, interval: null }

/** Of the model's effects where it has some but no errors, otherwise of the plain means. */
function plainDifference({ means, model }: Omit<LikingReading, 'repeats' | 'errors'>, i: number, j: number): number {
  if (model) {
    return cupDifference(model.design, i, j).reduce((sum, weight, k) => sum + weight * (model.beta[k] ?? lost()), 0)
  }
  const mean = (cup: number) => {
    let [sum, n] = [0, 0]
    for (let cell = cup; cell < means.means.length; cell += means.cups) {
      if (!means.counts[cell]) continue
      sum += means.means[cell] ?? lost()
      n++
    }
    return sum / n
  }
  return mean(i) - mean(j)
}

function judged(difference: number, error: { se: number; df: number | null } | null, grain: number, level: number) {
  const nothing = { t: null, p: null, interval: null }
  if (!error) return { se: null, df: null, ...nothing }
  const { se, df } = error
  if (!(se > 64 * grain)) return { se: 0, df, ...nothing }
  if (df === null) return { se, df, ...nothing }
  const interval = around(difference, se, studentReach(level, df))
  return {
    se,
    df,
    t: difference / se,
    p: studentTwoSided(difference / se, df),
    interval: interval.every(Number.isFinite) ? interval : null,
  }
}

function byTukey({ difference, se, df, t }: ModelPair, cups: number, level: number) {
  if (t === null || se === null || df === null) return { p: null, interval: null }
  // Balanced panels give the same df but for the last digits: settled, they share one remembered quantile.
  const settled = Number(df.toPrecision(12))
  return {
    p: Math.min(1, studentizedRangeUpper(Math.abs(t) * Math.SQRT2, cups, df)),
    interval: around(difference, se, studentizedRangeQuantile(level, cups, settled) / Math.SQRT2),
  }
}

function preference(differences: Float64Array, level: number) {
  let [preferA, preferB] = [0, 0]
  for (const d of differences) {
    if (d > 0) preferA++
    else if (d < 0) preferB++
  }
  const decided = preferA + preferB
  return {
    preferA,
    preferB,
    tied: differences.length - decided,
    shareA:
      decided > 0
        ? { estimate: preferA / decided, interval: wilson(preferA, decided, level) }
        : { estimate: null, interval: null },
  }
}
