import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { chiSquaredUpper } from '../distribution/chi-squared'
import { midranks } from './midrank'
import { permutedColumnTail } from '../permuted-columns'

/** Null stands for what cannot be had: every taster gave all cups the same, or there is one cup, or no taster. */
export interface FriedmanTest {
  readonly chiSquared: number | null
  readonly df: number
  readonly p: number | null
  readonly kendallW: number | null
}

/**
 * Do the cups differ in the places the tasters gave them?
 *
 *     χ² = (k − 1) Σⱼ (Rⱼ − n (k + 1) / 2)² / Σᵢⱼ (rᵢⱼ − (k + 1) / 2)²,   df = k − 1,   W = χ² / (n (k − 1))
 *
 *     n tasters, k cups, rᵢⱼ the midrank of cup j within taster i, Rⱼ = Σᵢ rᵢⱼ
 *
 * Without ties this is 12 ΣR² / (n k (k + 1)) − 3 n (k + 1); with ties it is that, divided by 1 − Σ(t³ − t) / (n k (k² − 1)).
 *
 * @param readings  n tasters × k cups, complete, any unit (scores or ranks); ranked within each taster here
 * @returns         p from chi-squared; `friedmanExact` for few tasters
 * @throws RangeError  rows of unequal length, or a reading that is not finite
 *
 * Source   Friedman (1937), J. Am. Stat. Assoc. 32, 675–701; ties: Hollander & Wolfe, Nonparametric Statistical Methods, 7.1;
 *          W: Kendall & Babington Smith (1939), Ann. Math. Stat. 10, 275–287
 * Checked  test/reference/friedman-1937-tails.test.ts
 * Limits   The chi-squared p is rough for fewer than about ten tasters. A taster who ties everything adds nothing but counts in W.
 */
export function friedman(readings: readonly (readonly number[])[]): FriedmanTest {
  const ranks = rankedRows(readings)
  const n = ranks.length
  const k = ranks[0]?.length ?? 0
  const df = Math.max(0, k - 1)
  const middle = (k + 1) / 2
  const within = ranks.flat().reduce((sum, rank) => sum + (rank - middle) ** 2, 0)
  if (within === 0) return { chiSquared: null, df, p: null, kendallW: null }

  const rankSums = Array.from({ length: k }, (_, j) => ranks.reduce((sum, row) => sum + (row[j] ?? lost()), 0))
  const between = rankSums.reduce((sum, rankSum) => sum + (rankSum - n * middle) ** 2, 0)
  const chiSquared = (df * between) / within
  return { chiSquared, df, p: chiSquaredUpper(chiSquared, df), kendallW: Math.min(1, chiSquared / (n * df)) }
}

/**
 * The same question without the chi-squared approximation: how often would chance alone part the cups this far?
 *
 *     P(χ² ≥ the one seen) over all k! orders within every taster, the ties each taster made kept as they are
 *
 * @param readings  as for `friedman`
 * @returns         null where it takes more than 2 million sets of rank sums (see `permutedColumnTail`) or nothing is ranked
 * @throws RangeError  as for `friedman`
 *
 * Source   Friedman (1937), the recursion over tasters; ISO 8587 table of exact values
 * Checked  test/reference/friedman-1937-tails.test.ts
 * Cost     seconds at the limit, milliseconds for 5 cups × 12 tasters
 */
export function friedmanExact(readings: readonly (readonly number[])[]): number | null {
  const doubled = rankedRows(readings).map((row) => row.map((rank) => 2 * rank))
  if (doubled.every((row) => row.every((rank) => rank === row[0]))) return null
  return permutedColumnTail(doubled)
}

/** The most tasters for whom every order is counted within about a tenth of a second, by the number of cups. */
const SOON: Readonly<Record<number, number>> = { 2: 200, 3: 100, 4: 36, 5: 12, 6: 6 }

/**
 * Is the exact p of so many tasters and cups counted while somebody waits?
 *
 * @returns  false: it takes up to seconds, or cannot be had; the chi-squared p is near then
 *
 * Source   measured, orders without ties
 * Checked  test/unit/stats/rank/friedman.test.ts
 */
export function isCountedSoon(tasters: number, cups: number): boolean {
  const most = SOON[cups]
  return most !== undefined && tasters <= most
}

function rankedRows(readings: readonly (readonly number[])[]): number[][] {
  const k = readings[0]?.length ?? 0
  for (const row of readings) demand(row.length === k, `every taster needs ${k} readings, got ${row.length}`)
  return readings.map(midranks)
}
