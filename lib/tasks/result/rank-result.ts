import 'server-only'

/** One cup of a panel that put its cups in order. */
export interface RankedCup {
  readonly cup: string
  /** how many put it first, second … */
  readonly places: readonly number[]
  readonly meanPlace: number
  /** after Plackett and Luce: log scale, mean zero; null where no finite one fits */
  readonly worth: { readonly value: number; readonly se: number } | null
}

/** Two cups: `above` is the one that more put above the other, the first of the plan where as many put either. */
export interface RankedCups {
  readonly above: string
  readonly below: string
  readonly liked: number
  readonly likedOther: number
  /** exact sign test, and after Holm over all pairs; null where the first test did not say that the cups differ */
  readonly p: number | null
  readonly pHolm: number | null
  readonly told: boolean
}

/** What a panel found whose tasters put all cups in order. Letters are those of the result. */
export interface RankResult {
  readonly kind: 'rank'
  /** whose whole order is in the numbers */
  readonly tasters: number
  /** seats that were taken and gave no whole order that counts */
  readonly without: number
  /** best mean place first */
  readonly cups: readonly RankedCup[]
  /** Friedman's test of all cups together; null where nobody put them in order */
  readonly first: {
    readonly by: 'exact' | 'chi-squared'
    readonly chiSquared: number
    readonly df: number
    readonly p: number
    readonly differ: boolean
  } | null
  readonly pairs: readonly RankedCups[]
  /** the cup that is told to stand above every other */
  readonly best: string | null
  /** seats whose order is a person's second or later one: kept, and not counted */
  readonly later: readonly number[]
  /** fewer can tell no pair */
  readonly fewest: number
  /** tasters who tell a pair that the planned share puts apart, four times out of five */
  readonly needed: number
  /** that share, in percent */
  readonly sought: number
}
