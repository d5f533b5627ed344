import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { bradleyTerry, type PairCount } from './bradley-terry'
import { checkLevel } from '../check-level'
import { cupGroups } from './cup-groups'
import { binomialUpper } from '../distribution/binomial'
import { anytime, clopperPearson, wilson } from '../interval'
import { UnusableReadings, type Answer, type Interval } from '../outcome'
import { signTest } from './sign-test'
import { labels, pairsBelow } from '../taster-table'
import { netPreference, trinomialTest } from './trinomial'
import { isAtMost } from '../multiplicity'

export interface TwoCupPreference extends Answer<
  'preference',
  { readonly tasters: number; readonly cups: number; readonly answers: number; readonly missing: number }
> {
  readonly cup: string
  readonly other: string
  readonly preferred: number
  readonly total: number
  readonly none: number
  readonly share: number | null
  readonly pTwoSided: number | null
  readonly pOneSided: number | null
  readonly intervalExact: Interval | null
  readonly intervalWilson: Interval | null
  readonly criticalTwoSided: number | null
  readonly intervalAnytime: Interval | null
  readonly net: { readonly estimate: number; readonly interval: Interval } | null
  readonly pTrinomial: number | null
}

export interface ManyCupPreference extends Answer<
  'preference',
  {
    readonly tasters: number
    readonly cups: number
    readonly answers: number
    readonly none: number
    readonly missing: number
  }
> {
  readonly worth: readonly { readonly cup: string; readonly worth: number; readonly se: number }[] | null
  readonly fit: { readonly deviance: number | null; readonly df: number; readonly p: number | null }
  readonly ties: { readonly nu: number | null } | null
}

/**
 * Is one of two cups preferred?
 *
 *     share = x / n,   pOneSided = P(X ≥ x),   pTwoSided = min(1, 2 · smaller tail),   X binomial with n and ½
 *
 * @param counts  `total` answers N, of them `preferred` x for `cup` and `none` without a preference; n = N − none
 * @returns       share, p and the three intervals over the n with a preference; net and trinomial over all N
 * @throws RangeError  counts that are not whole numbers from 0, or more preferred and none than total
 *
 * Source   ISO 5495; Clopper & Pearson (1934); Wilson (1927); Bian, McAleer & Wong (2011)
 * Checked  test/reference/iso-5495-preference.test.ts
 * Limits   One answer per taster. pOneSided only where the direction was fixed beforehand.
 */
export function preferenceCounts(
  counts: {
    readonly cup: string
    readonly other: string
    readonly preferred: number
    readonly total: number
    readonly none: number
  },
  { level }: { readonly level: number },
): TwoCupPreference {
  return twoCups({ ...counts, tasters: counts.total, missing: 0 }, level)
}

/**
 * Which cups are preferred, pair by pair?
 *
 *     two cups: as `preferenceCounts`; more: worths of Bradley and Terry, with Davidson's ν where some prefer neither
 *
 * @param rows  one per answer; no preference: `preferred` null and both cups in `others`; neither given: a gap, counted
 * @throws UnusableReadings  a taster answers twice on one pair, a cup set against itself, fewer than two cups,
 *                           cups that no chain of answers connects
 * @throws RangeError  level outside (0, 1)
 *
 * Source   Bradley & Terry (1952), Biometrika 39, 324–345; Davidson (1970), J. Am. Stat. Assoc. 65, 317–328
 * Checked  test/reference/bradley-1952-pairs.test.ts
 * Limits   Answers of one taster on several pairs are taken as independent.
 */
export function preferencePairs(
  rows: readonly { readonly taster: string; readonly preferred: string | null; readonly others: readonly string[] }[],
  { level }: { readonly level: number },
): TwoCupPreference | ManyCupPreference {
  checkLevel(level)
  const answered = rows.filter(({ preferred, others }) => preferred !== null || others.length > 0)
  const missing = rows.length - answered.length
  const cups = labels(
    answered.flatMap(({ preferred, others }) => (preferred === null ? others : [preferred, ...others])),
  )
  if (cups.length < 2) throw new UnusableReadings(`a preference needs two cups, got ${cups.join(', ') || 'none'}`)
  const pairs = countPairs(answered, cups)
  const tasters = new Set(answered.map(({ taster }) => taster)).size
  const [only] = pairs
  if (cups.length === 2 && only) {
    const { preferA, preferB, none } = only
    const [cup = '', other = ''] = cups
    return twoCups({ cup, other, preferred: preferA, none, total: preferA + preferB + none, tasters, missing }, level)
  }

  const groups = cupGroups(
    pairs.filter(({ preferA, preferB, none }) => preferA + preferB + none > 0).map(({ a, b }) => [a, b]),
    cups.length,
  )
  if (groups.length > 1) {
    const named = groups.map((group) => group.map((j) => cups[j]).join(', ')).join(' | ')
    throw new UnusableReadings(`no answer connects these groups of cups: ${named}`)
  }
  const fit = bradleyTerry(pairs, cups.length)
  const none = pairs.reduce((sum, pair) => sum + pair.none, 0)
  const notes = [
    ...('unbeaten' in fit ? [separation(fit.unbeaten, cups)] : []),
    ...(fit.df <= 0 ? ['no degrees of freedom are left to test the fit'] : []),
    ...(missing > 0 ? [`${missing} rows without an answer`] : []),
  ]
  return {
    verb: 'preference',
    level,
    counts: { tasters, cups: cups.length, answers: answered.length, none, missing },
    method: `${none > 0 ? 'Davidson’s model with no preference' : 'Bradley and Terry’s model'}, log worths with mean zero; deviance against free pairs, chi-squared on ${fit.df}`,
    notes,
    worth:
      'unbeaten' in fit
        ? null
        : cups.map((cup, j) => ({ cup, worth: fit.worth[j] ?? lost(), se: fit.se[j] ?? lost() })),
    fit: { deviance: fit.deviance, df: fit.df, p: fit.p },
    ties: none > 0 ? { nu: fit.nu } : null,
  }
}

function separation(unbeaten: readonly number[], cups: readonly string[]): string {
  const named = unbeaten.map((cup) => cups[cup]).join(', ')
  return `no finite worths exist: no other cup is ever preferred to ${named}, or the answers without a preference leave the steps between cups open`
}

function countPairs(
  rows: readonly { readonly taster: string; readonly preferred: string | null; readonly others: readonly string[] }[],
  cups: readonly string[],
): PairCount[] {
  const counts = new Map(
    pairsBelow(cups.length).map(([a, b]) => [`${a} ${b}`, { a, b, preferA: 0, preferB: 0, none: 0 }]),
  )
  const seen = new Set<string>()
  for (const { taster, preferred, others } of rows) {
    const both = preferred === null ? others : [preferred, ...others]
    const [x = -1, y = -1] = both.map((cup) => cups.indexOf(cup))
    if (both.length !== 2 || x === y) {
      throw new UnusableReadings(`taster ${taster}: an answer is about two different cups, got ${both.join(', ')}`)
    }
    const key = `${Math.min(x, y)} ${Math.max(x, y)}`
    if (seen.has(JSON.stringify([taster, key]))) {
      throw new UnusableReadings(
        `taster ${taster} answers twice on ${cups[Math.min(x, y)]} and ${cups[Math.max(x, y)]}`,
      )
    }
    seen.add(JSON.stringify([taster, key]))
    const count = counts.get(key)
    if (!count) continue
    if (preferred === null) count.none += 1
    else if (x === count.a) count.preferA += 1
    else count.preferB += 1
  }
  return [...counts.values()]
}

function twoCups(
  counts: {
    readonly cup: string
    readonly other: string
    readonly preferred: number
    readonly total: number
    readonly none: number
    readonly tasters: number
    readonly missing: number
  },
  level: number,
): TwoCupPreference {
  checkLevel(level)
  const { cup, other, preferred: x, total, none, tasters, missing } = counts
  for (const count of [x, total, none]) {
    demand(Number.isInteger(count) && count >= 0, `a count must be a whole number from 0, got ${count}`)
  }
  const n = total - none
  demand(x <= n, `${x} preferred and ${none} without a preference are more than ${total} in all`)
  const critical = criticalCount(n, 1 - level)
  const some = n > 0
  return {
    verb: 'preference',
    level,
    counts: { tasters, cups: 2, answers: total, missing },
    method:
      'exact binomial against one half (ISO 5495) over answers with a preference; Clopper–Pearson, Wilson and beta-mixture intervals; trinomial test over all answers',
    notes: [
      ...(some ? [] : ['nobody had a preference: no share']),
      ...(some && critical === null ? [`with ${n} answers no count can reach significance`] : []),
      ...(none > 0 ? [`${none} of ${total} without a preference: share, p and intervals are over the other ${n}`] : []),
      ...(missing > 0 ? [`${missing} rows without an answer`] : []),
    ],
    cup,
    other,
    preferred: x,
    total,
    none,
    share: some ? x / n : null,
    pTwoSided: some ? signTest(x, n - x) : null,
    pOneSided: some ? binomialUpper(x - 1, n, 0.5) : null,
    intervalExact: some ? clopperPearson(x, n, level) : null,
    intervalWilson: some ? wilson(x, n, level) : null,
    criticalTwoSided: critical,
    intervalAnytime: some ? anytime(x, n, level) : null,
    net: none > 0 ? netPreference(x, n - x, none, level) : null,
    pTrinomial: none > 0 ? trinomialTest(x, n - x, none) : null,
  }
}

/** The smallest count with 2 P(X ≥ count) ≤ risk, or null where even n of n is not enough. */
function criticalCount(n: number, risk: number): number | null {
  let [low, high] = [Math.floor(n / 2), n + 1]
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (isAtMost(2 * binomialUpper(middle - 1, n, 0.5), risk)) high = middle
    else low = middle
  }
  return high > n ? null : high
}
