import { demand } from '@/lib/base/demand'

/** What one panel knew of the spread of a score about its taster's own mean. */
export interface PanelSpread {
  /** squared points */
  readonly variance: number
  readonly df: number
}

/**
 * How far do one taster's scores lie about their own mean, over several panels?
 *
 *     s = √(Σ νᵢ sᵢ² / Σ νᵢ)
 *
 * @returns  null where no panel knows anything of it
 * @throws RangeError  a variance or degrees of freedom below zero
 *
 * Source   pooled variance: Snedecor and Cochran (1989), Statistical Methods, section 6.8 (from memory)
 * Checked  test/unit/stats/plan/pooled-spread.test.ts
 */
export function pooledSpread(panels: readonly PanelSpread[]): { readonly sd: number; readonly df: number } | null {
  let [squares, df] = [0, 0]
  for (const one of panels) {
    demand(
      one.variance >= 0 && one.df >= 0,
      `variance and degrees of freedom must not be negative, got ${one.variance}`,
    )
    squares += one.df * one.variance
    df += one.df
  }
  return df > 0 && squares > 0 ? { sd: Math.sqrt(squares / df), df } : null
}
