import { lost } from '@/lib/base/lost'
import type { ControlPair, ModelPair } from './acceptance-answer'
import { around } from '../model/contrast'
import { controlOutside, controlReach } from './control-reach'
import type { FixedEffects } from '../model/fixed-effects'
import { onDemand } from './on-demand'
import { quadratic } from '../algebra/positive-definite'

/**
 * Which cups are liked more or less than the one they are meant to replace, by the model?
 *
 *     two-sided many-to-one t: p = P(max |Tⱼ| ≥ |t|),   Corr(Tᵢ, Tⱼ) = cᵢᵀ Cov cⱼ / √(cᵢᵀ Cov cᵢ · cⱼᵀ Cov cⱼ)
 *
 * Each comparison keeps its own degrees of freedom. Dunnett's numbers are reckoned when they are first read.
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
  pairs: readonly ModelPair[],
  effects: FixedEffects | null,
  contrastOf: (cup: number) => Float64Array,
  level: number,
): readonly ControlPair[] {
  const others = cups.map((_, cup) => cup).filter((cup) => cup !== control)
  const correlation = onDemand(() => (effects ? contrastCorrelation(effects, others.map(contrastOf)) : null))
  return others.flatMap((cup) => {
    const turned = cup > control
    const pair = pairs.find(({ a, b }) => {
      return turned ? a === cups[control] && b === cups[cup] : a === cups[cup] && b === cups[control]
    })
    if (!pair) return []
    const { se, df, t, p } = pair
    const sign = turned ? -1 : 1
    const difference = unsigned(sign * pair.difference)
    const dunnett = onDemand(() => byDunnett(difference, se, df, t, correlation(), level))
    return {
      cup: cups[cup] ?? '',
      difference,
      se,
      df,
      t: t === null ? null : unsigned(sign * t),
      p,
      get pDunnett() {
        return dunnett().p
      },
      get intervalDunnett() {
        return dunnett().interval
      },
    }
  })
}

function byDunnett(
  difference: number,
  se: number | null,
  df: number | null,
  t: number | null,
  correlation: number[][] | null,
  level: number,
) {
  if (t === null || se === null || df === null || correlation === null) return { p: null, interval: null }
  const settled = Number(df.toPrecision(12))
  return {
    p: Math.min(1, controlOutside(Math.abs(t), settled, correlation)),
    interval: around(difference, se, controlReach(level, settled, correlation)),
  }
}

/** Rounded at the 12th digit, as are the df: balanced panels then ask the same question for every cup, once. */
function contrastCorrelation(effects: FixedEffects, contrasts: readonly Float64Array[]): number[][] | null {
  const covariance = contrasts.map((a) => contrasts.map((b) => quadratic(a, effects.covariance, b, a.length)))
  const spread = covariance.map((row, i) => Math.sqrt(row[i] ?? lost()))
  if (spread.some((value) => !(value > 0))) return null
  return covariance.map((row, i) =>
    row.map((value, j) => (i === j ? 1 : Number((value / ((spread[i] ?? 1) * (spread[j] ?? 1))).toPrecision(12)))),
  )
}

/** Zero without a sign. */
function unsigned(value: number): number {
  return value === 0 ? 0 : value
}
