import type { ControlPair, CupPair } from './acceptance-answer'
import { around } from './contrast'
import { controlOutside, controlReach } from './control-reach'
import type { FixedEffects } from './fixed-effects'
import { quadratic } from './positive-definite'
import { holmAmong, verdictSign } from './verdict'

/**
 * Which cups are liked more or less than the one they are meant to replace?
 *
 *     two-sided many-to-one t: p = P(max |Tⱼ| ≥ |t|),   Corr(Tᵢ, Tⱼ) = cᵢᵀ Cov cⱼ / √(cᵢᵀ Cov cᵢ · cⱼᵀ Cov cⱼ)
 *
 * Each comparison keeps its own degrees of freedom. Verdicts: Holm over the comparisons with the control only.
 *
 * @param control    place of the control among the cups
 * @param pairs      all pairs, as in the answer
 * @param contrasts  weights of every cup less the control, null for the control itself; null without a model
 *
 * Source   Dunnett (1955), JASA 50(272), 1096–1121; (1964), Biometrics 20(3), 482–491.
 * Checked  test/reference/acceptance-r-cases.test.ts
 */
export function controlComparison(
  cups: readonly string[],
  control: number,
  pairs: readonly CupPair[],
  effects: FixedEffects | null,
  contrastOf: (cup: number) => Float64Array,
  level: number,
): readonly ControlPair[] {
  const others = cups.map((_, cup) => cup).filter((cup) => cup !== control)
  const correlation = effects ? contrastCorrelation(effects, others.map(contrastOf)) : null
  const compared = others.map((cup) => {
    const turned = cup > control
    const found = pairs.find(({ a, b }) => {
      return turned ? a === cups[control] && b === cups[cup] : a === cups[cup] && b === cups[control]
    })
    return found ? { cup: cups[cup] ?? '', sign: turned ? -1 : 1, pair: found } : null
  })
  const known = compared.filter((each) => each !== null)
  const adjusted = holmAmong(known.map(({ pair }) => (pair.verdict.basis === 'paired' ? pair.paired.p : pair.p)))

  return known.map(({ cup, sign, pair }, i) => {
    const { se, df, t, p } = pair
    const basis = pair.verdict.basis
    const difference = unsigned(sign * pair.difference)
    const judged = basis === 'paired' ? pair.paired.difference : pair.difference
    const pHolm = adjusted[i] ?? null
    const outcome =
      (['worse', 'cannot tell', 'better'] as const)[1 + sign * verdictSign(judged, pHolm, level)] ?? 'cannot tell'
    const testable = t !== null && se !== null && df !== null && correlation !== null
    const settled = Number((df ?? 0).toPrecision(12))
    return {
      cup,
      difference,
      se,
      df,
      t: t === null ? null : unsigned(sign * t),
      p,
      pDunnett: testable ? Math.min(1, controlOutside(Math.abs(t), settled, correlation)) : null,
      intervalDunnett: testable ? around(difference, se, controlReach(level, settled, correlation)) : null,
      verdict: { basis, pHolm, outcome },
    }
  })
}

/** Rounded at the 12th digit, as are the df: balanced panels then ask the same question for every cup, once. */
function contrastCorrelation(effects: FixedEffects, contrasts: readonly Float64Array[]): number[][] | null {
  const covariance = contrasts.map((a) => contrasts.map((b) => quadratic(a, effects.covariance, b, a.length)))
  const spread = covariance.map((row, i) => Math.sqrt(row[i] ?? 0))
  if (spread.some((value) => !(value > 0))) return null
  return covariance.map((row, i) =>
    row.map((value, j) => (i === j ? 1 : Number((value / ((spread[i] ?? 1) * (spread[j] ?? 1))).toPrecision(12)))),
  )
}

/** Zero without a sign. */
function unsigned(value: number): number {
  return value === 0 ? 0 : value
}
