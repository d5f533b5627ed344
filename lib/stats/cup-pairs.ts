import type { Basis, CupPair } from './acceptance-answer'
import { around, estimateContrast } from './contrast'
import { studentizedRangeQuantile, studentizedRangeUpper } from './distribution/studentized-range'
import { wilson } from './interval'
import type { LikingModel } from './liking-model'
import { cupDifference } from './marginal-mean'
import { pairedDifference } from './paired-difference'
import { signedRank } from './signed-rank'
import { tasterDifferences, type TasterMeans } from './taster-means'
import { holmAmong, verdictSign } from './verdict'

/**
 * How do the cups compare two by two: by the model, by the tasters' own differences, by their signs and ranks?
 *
 *     Tukey: p = P(q(K, df) ≥ √2 |t|), interval d ± q(K, df; level)/√2 · se, each pair with its own df
 *     effect size: d / √(taster-by-cup + residual variance)
 *
 * Verdicts rest on the tasters' own differences where every taster scored every cup, otherwise on the model; Holm over
 * all pairs of that basis.
 *
 * Source   Tukey (1953) and Kramer (1956), Biometrics 12(3), 307–310; Holm (1979), Scand. J. Stat. 6(2), 65–70.
 * Checked  test/reference/acceptance-r-cases.test.ts
 * Limits   with unequal standard errors Tukey–Kramer errs on the safe side.
 */
export function cupPairs(
  cups: readonly string[],
  model: LikingModel | null,
  means: TasterMeans,
  plainDifference: (a: number, b: number) => number,
  grain: number,
  level: number,
): readonly CupPair[] {
  const basis: Basis = means.complete ? 'paired' : 'model'
  const scale = Math.sqrt((model?.variance.tasterByCup ?? 0) + (model?.variance.residual ?? 0))
  const drafts = cups.flatMap((a, i) =>
    cups.slice(i + 1).map((b, offset) => {
      const j = i + 1 + offset
      const differences = tasterDifferences(means, i, j, grain)
      const contrast = model?.effects
        ? estimateContrast(model.effects, cupDifference(model.design, i, j), level)
        : { ...NOTHING, estimate: plainDifference(i, j), se: model?.why === 'no residual' ? 0 : null }
      return { a, b, differences, contrast, paired: pairedDifference(differences, level, grain) }
    }),
  )
  const modelHolm = holmAmong(drafts.map(({ contrast }) => contrast.p))
  const pairedHolm = holmAmong(drafts.map(({ paired }) => paired.p))

  return drafts.map(({ a, b, differences, contrast, paired }, i) => {
    const { estimate: difference, se, df, t } = contrast
    const [pHolm, pairedP] = [modelHolm[i] ?? null, pairedHolm[i] ?? null]
    const testable = t !== null && se !== null && df !== null
    // Balanced panels give the same df but for the last digits: settled, they share one remembered quantile.
    const settled = Number((df ?? 0).toPrecision(12))
    const judged = basis === 'paired' ? paired.difference : difference
    const sign = verdictSign(judged, basis === 'paired' ? pairedP : pHolm, level)
    return {
      a,
      b,
      difference,
      se,
      df,
      t,
      p: contrast.p,
      pHolm,
      pTukey: testable ? Math.min(1, studentizedRangeUpper(Math.abs(t) * Math.SQRT2, cups.length, df)) : null,
      interval: contrast.interval,
      intervalTukey: testable
        ? around(difference, se, studentizedRangeQuantile(level, cups.length, settled) / Math.SQRT2)
        : null,
      effectSize: scale > 0 ? difference / scale : null,
      paired: { ...paired, pHolm: pairedP },
      ...preference(differences, level),
      signedRank: differences.length > 0 ? signedRank([...differences]) : null,
      verdict: {
        basis,
        pHolm: basis === 'paired' ? pairedP : pHolm,
        outcome: (['b better', 'cannot tell', 'a better'] as const)[1 + sign] ?? 'cannot tell',
      },
    }
  })
}

const NOTHING = { df: null, t: null, p: null, interval: null }

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
