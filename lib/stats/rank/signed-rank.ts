import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { normalUpper } from '../distribution/normal'
import { midranks } from './midrank'

/** Differences of scores below this are rounding, not liking. */
const ZERO = 1e-12
const MOST_EXACT = 50

export interface SignedRankTest {
  /** sum of the ranks of the positive differences */
  readonly statistic: number
  /** two-sided */
  readonly p: number
  readonly exact: boolean
}

/**
 * Do tasters' differences between two cups lean to one side, by size and sign?
 *
 *     V = Σ ranks of the positive differences, |d| ranked with the zeros, whose ranks are then dropped (Pratt)
 *     exact:  P(|V − Σr/2| ≥ |v − Σr/2|) over all 2ᵐ signs of the m differences that are not zero
 *     beyond: z = (V − Σr/2) / √(Σr²/4), no continuity correction
 *
 * @param differences  one per taster, any unit, finite
 * @returns            exact up to 50 differences that are not zero, midranks kept; p = 1 when all are zero
 * @throws RangeError  a difference that is not finite
 *
 * Source   Wilcoxon (1945), Biometrics Bulletin 1(6), 80–83; Pratt (1959), J. Am. Stat. Assoc. 54, 655–667
 * Checked  test/reference/wilcoxon-1945-signed-rank.test.ts
 * Limits   Differences below 1e-12 count as zero; those nearer than 1e-12 of the largest count as tied.
 */
export function signedRank(differences: readonly number[]): SignedRankTest {
  for (const d of differences) demand(Number.isFinite(d), `a difference must be finite, got ${d}`)
  const sizes = differences.map((d) => (Math.abs(d) < ZERO ? 0 : Math.abs(d)))
  const ranked = midranks(sizes)
    .map((rank, i) => ({ rank, size: sizes[i] ?? lost(), positive: (differences[i] ?? lost()) > 0 }))
    .filter(({ size }) => size > 0)
  if (ranked.length === 0) return { statistic: 0, p: 1, exact: true }

  const ranks = ranked.map(({ rank }) => rank)
  const statistic = ranked.reduce((sum, { rank, positive }) => sum + (positive ? rank : 0), 0)
  const away = Math.abs(statistic - sum(ranks) / 2)
  if (ranks.length <= MOST_EXACT) return { statistic, p: exactTail(ranks, away), exact: true }
  const z = away / Math.sqrt(sum(ranks.map((rank) => rank * rank)) / 4)
  return { statistic, p: Math.min(1, 2 * normalUpper(z)), exact: false }
}

/**
 * Counts, over every choice of signs, how many sums lie at least this far from the middle; doubled ranks are whole. The sums
 * lie evenly round the middle, so only those of the lower side are counted, and none above the farthest of them.
 */
function exactTail(ranks: readonly number[], away: number): number {
  if (away === 0) return 1
  const whole = ranks.map((rank) => Math.round(2 * rank)).sort((a, b) => a - b)
  const most = Math.floor(sum(whole) / 2 - 2 * away)
  if (most < 0) return 0
  const ways = new Float64Array(most + 1)
  ways[0] = 1
  let reached = 0
  for (const rank of whole) {
    reached = Math.min(most, reached + rank)
    for (let s = reached; s >= rank; s -= 1) ways[s] = (ways[s] as number) + (ways[s - rank] as number)
  }
  let far = 0
  for (const count of ways) far += count
  return Math.min(1, (2 * far) / 2 ** ranks.length)
}

function sum(list: readonly number[]): number {
  return list.reduce((total, x) => total + x, 0)
}
