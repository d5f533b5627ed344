import { lost } from '@/lib/base/lost'
import { normalUpper } from '../distribution/normal'
import { signTest } from '../choice/sign-test'
import { pairsBelow } from '../taster-table'
import { holm, holmWithGaps } from '../multiplicity'

export interface RankedPair {
  readonly a: string
  readonly b: string
  /** of a less that of b; below zero: a was liked more */
  readonly rankSumDifference: number
  /** two-sided, normal, for one pair chosen beforehand */
  readonly p: number | null
  readonly pHolm: number | null
  /** of those who ranked both, how many liked a more, and how many b */
  readonly likedA: number
  readonly likedB: number
  /** two-sided exact p of the sign test over these */
  readonly signTest: number
  /** the same after Holm over all pairs of the panel: it holds whatever is true of the other cups, as `pHolm` does not */
  readonly signHolm: number
}

/**
 * Which two cups lie apart in their rank sums?
 *
 *     z = (Rₐ − R_b) / √V,   V = Σᵢ kᵢ (kᵢ + 1) / 12 · (2 where taster i met both cups, 1 − 1 / kᵢ where one)
 *
 * With complete ranks V = n k (k + 1) / 6. In an unbalanced plan each taster's mean rank is taken off first. V is that of cups
 * which are all alike; the sign test of a pair asks of these two alone.
 *
 * @param cups      labels in label order
 * @param ranks     tasters × cups, midranks among the cups the taster met, null elsewhere
 * @param balanced  every pair of cups occurs equally often, so that one standard error serves all
 * @returns         the pairs, and that one standard error or null
 *
 * Source   ISO 8587; Hollander & Wolfe, Nonparametric Statistical Methods, 7.3
 * Checked  test/reference/ranking-r-cases.test.ts
 * Limits   V takes no notice of ties: with many ties p is too large.
 */
export function comparePairs(
  cups: readonly string[],
  ranks: readonly (readonly (number | null)[])[],
  balanced: boolean,
): { readonly se: number | null; readonly list: readonly RankedPair[] } {
  const compared = pairsBelow(cups.length).map(([a, b]) => {
    let [difference, fair, variance, better, worse] = [0, 0, 0, 0, 0]
    for (const row of ranks) {
      const k = row.filter((rank) => rank !== null).length
      const [own, other] = [row[a] ?? null, row[b] ?? null]
      difference += (own ?? 0) - (other ?? 0)
      fair += (own === null ? 0 : own - (k + 1) / 2) - (other === null ? 0 : other - (k + 1) / 2)
      const met = (own === null ? 0 : 1) + (other === null ? 0 : 1)
      // Var(uₐ − u_b) is 2 s² where both are met, s² (1 − 1/k) where one is.
      variance += ((k * (k + 1)) / 12) * (met === 2 ? 2 : met === 1 ? 1 - 1 / k : 0)
      if (own !== null && other !== null && own < other) better += 1
      if (own !== null && other !== null && own > other) worse += 1
    }
    const se = Math.sqrt(variance)
    const p = se > 0 ? Math.min(1, 2 * normalUpper(Math.abs(balanced ? difference : fair) / se)) : null
    return {
      a: cups[a] ?? '',
      b: cups[b] ?? '',
      rankSumDifference: difference,
      se,
      p,
      likedA: better,
      likedB: worse,
      signTest: signTest(better, worse),
    }
  })
  const adjusted = holmWithGaps(compared.map(({ p }) => p))
  const signs = holm(compared.map((pair) => pair.signTest))
  return {
    se: !balanced || compared.length === 0 ? null : (compared[0]?.se ?? null),
    list: compared.map(({ se: _, ...pair }, i) => ({
      ...pair,
      pHolm: adjusted[i] ?? null,
      signHolm: signs[i] ?? lost(),
    })),
  }
}
