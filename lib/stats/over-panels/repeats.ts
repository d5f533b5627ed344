import { demand } from '@/lib/base/demand'
import { checkLevel } from '../check-level'
import { chiSquaredUpper } from '../distribution/chi-squared'
import { normalQuantile } from '../distribution/normal'
import { studentQuantile } from '../distribution/student'
import { betweenPanels, pooled, type TauMethod, type Weighed } from './between-panels'
import { UnusableReadings, type Answer, type Interval } from '../outcome'

export interface Repeats extends Answer<'repeats', { readonly studies: number; readonly missing: number }> {
  readonly estimate: number
  readonly se: number
  readonly interval: Interval
  readonly intervalHartungKnapp: Interval | null
  readonly tauSquared: number
  readonly Q: number
  readonly df: number
  readonly p: number | null
  /** per cent */
  readonly iSquared: number | null
  readonly prediction: Interval | null
}

/**
 * What do repeated panels say together about one difference?
 *
 *     w = 1 / (se² + τ²),   μ = Σ w d / Σ w,   se(μ) = 1 / √Σw,   interval μ ± z se
 *     Hartung–Knapp: μ ± t(k − 1) se √max(1, q),   q = Σ w (d − μ)² / (k − 1)
 *     Q = Σ (d − d̄)² / se² with weights 1 / se²,   I² = max(0, 1 − (k − 1) / Q) · 100
 *     prediction: μ ± t(k − 2) √(τ² + se²)
 *
 * @param rows  k panels: the difference, and its standard error in the same unit; null is a gap
 * @param tau   how the variance between panels is estimated
 * @throws UnusableReadings  no panel with both numbers
 * @throws RangeError  a number that is not finite, a standard error that is not above 0, a level outside (0, 1)
 *
 * Source   DerSimonian & Laird (1986), Controlled Clinical Trials 7, 177–188; Hartung & Knapp (2001), Statistics in Medicine 20,
 *          3875–3889; Higgins, Thompson & Spiegelhalter (2009), J. R. Stat. Soc. A 172, 137–159
 * Checked  test/reference/dersimonian-1986-panels.test.ts
 * Limits   With few panels read the Hartung–Knapp interval. The same tasters in several panels are not independent.
 */
export function repeats(
  rows: readonly { readonly study: string; readonly difference: number | null; readonly se: number | null }[],
  { level, tau }: { readonly level: number; readonly tau: TauMethod },
): Repeats {
  checkLevel(level)
  const panels = rows.flatMap(({ study, difference, se }): Weighed[] => {
    if (difference === null || se === null) return []
    demand(Number.isFinite(difference), `panel ${study}: a difference must be finite, got ${difference}`)
    demand(Number.isFinite(se) && se > 0, `panel ${study}: a standard error must be above 0, got ${se}`)
    return [{ difference, variance: se * se }]
  })
  if (panels.length === 0)
    throw new UnusableReadings(`there is no panel with a difference and its standard error in ${rows.length} rows`)
  panels.sort((a, b) => a.difference - b.difference || a.variance - b.variance)
  const k = panels.length
  const df = k - 1
  const Q = pooled(panels, 0).Q
  const tauSquared = betweenPanels(panels, tau)
  const { estimate, se, Q: spread } = pooled(panels, tauSquared)
  const around = (reach: number): Interval => [estimate - reach, estimate + reach]
  const upper = (1 + level) / 2
  const names = rows.map(({ study }) => study)
  return {
    verb: 'repeats',
    level,
    counts: { studies: k, missing: rows.length - k },
    method: `random effects, variance between panels by ${tau === 'reml' ? 'REML' : 'DerSimonian and Laird'}; normal interval, Hartung–Knapp on ${df} df with the factor max(1, q), prediction on ${Math.max(0, k - 2)} df`,
    notes: [
      ...(k < 2 ? ['one panel: nothing to compare it with'] : []),
      ...(k < 3 ? ['a prediction needs at least three panels'] : []),
      ...(new Set(names).size < names.length
        ? ['a panel is named more than once: each row counts as a panel of its own']
        : []),
      ...(tauSquared === 0 && k > 1 ? ['the variance between panels is estimated at zero'] : []),
    ],
    estimate,
    se,
    interval: around(normalQuantile(upper) * se),
    intervalHartungKnapp: df > 0 ? around(studentQuantile(upper, df) * se * Math.sqrt(Math.max(1, spread / df))) : null,
    tauSquared,
    Q,
    df,
    p: df > 0 ? chiSquaredUpper(Q, df) : null,
    iSquared: df > 0 ? (Q > df ? (100 * (Q - df)) / Q : 0) : null,
    prediction: k > 2 ? around(studentQuantile(upper, k - 2) * Math.sqrt(tauSquared + se * se)) : null,
  }
}
