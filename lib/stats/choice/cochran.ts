import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { chiSquaredUpper } from '../distribution/chi-squared'
import { permutedColumnTail } from '../permuted-columns'

/** Null where every taster ticked all cups or none. */
export interface CochranTest {
  readonly Q: number | null
  readonly df: number
  readonly p: number | null
  /** over all ways in which each taster's ticks could have fallen on the cups; null too where it takes too long to count */
  readonly pExact: number | null
}

/**
 * Are some cups ticked more often than others by the same tasters?
 *
 *     Q = k (k − 1) Σⱼ (Tⱼ − T̄)² / (k Σᵢ uᵢ − Σᵢ uᵢ²),   df = k − 1
 *
 *     k cups, Tⱼ ticks of cup j, uᵢ ticks of taster i
 *
 * @param ticks  n tasters × k cups of 0 and 1, complete
 * @param most   steps that pExact may take, where several terms share one allowance
 * @throws RangeError  rows of unequal length, or a tick that is not 0 or 1
 *
 * Source   Cochran (1950), Biometrika 37, 256–266; exact by permuting within tasters
 * Checked  test/reference/cochran-1950-checked.test.ts
 * Limits   Chi-squared is poor where few tasters tick some cups and not others.
 */
export function cochran(ticks: readonly (readonly number[])[], most?: number): CochranTest {
  const k = ticks[0]?.length ?? 0
  for (const row of ticks) {
    demand(row.length === k, `every taster needs ${k} ticks, got ${row.length}`)
    for (const tick of row) demand(tick === 0 || tick === 1, `a tick is 0 or 1, got ${tick}`)
  }
  const own = ticks.map((row) => row.reduce((sum, tick) => sum + tick, 0))
  const below = own.reduce((sum, u) => sum + k * u - u * u, 0)
  const df = Math.max(0, k - 1)
  if (below === 0) return { Q: null, df, p: null, pExact: null }
  const totals = Array.from({ length: k }, (_, j) => ticks.reduce((sum, row) => sum + (row[j] ?? lost()), 0))
  const all = totals.reduce((sum, total) => sum + total, 0)
  // k Σ (T − T̄)² kept whole, so that equal totals give exactly 0.
  const Q = ((k - 1) * (k * totals.reduce((sum, total) => sum + total * total, 0) - all * all)) / below
  return { Q, df, p: chiSquaredUpper(Q, df), pExact: permutedColumnTail(ticks, most) }
}
