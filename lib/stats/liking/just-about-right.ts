import { mean, sampleVariance } from 'simple-statistics'
import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { checkLevel } from '../check-level'
import { studentQuantile, studentTwoSided } from '../distribution/student'
import type { Answer, Interval } from '../outcome'

/** Liking among those just right, less liking on one side; null where liking never differs. */
export interface LikingDrop {
  readonly n: number
  readonly share: number
  readonly meanDrop: number
  readonly se: number
  readonly df: number | null
  readonly interval: Interval | null
  readonly p: number | null
}

export interface JustAboutRight extends Answer<
  'jar',
  { readonly tasters: number; readonly answers: number; readonly missing: number }
> {
  /** shares of much too little, too little, just about right, too much, much too much; null without an answer */
  readonly shares: readonly number[] | null
  readonly justRight: { readonly n: number; readonly mean: number } | null
  readonly tooLittle: LikingDrop | null
  readonly tooMuch: LikingDrop | null
}

/**
 * How much liking goes with a drink being too little or too much of something?
 *
 *     drop = m₃ − mₛ,   se² = s₃² / n₃ + sₛ² / nₛ,   t on Welch's df = se⁴ / Σ (s² / n)² / (n − 1)
 *
 *     m, s², n of liking: 3 among those who said just about right, s among those on one side (1 and 2, or 4 and 5)
 *
 * Where tasters gave several answers the error believes in the tasters alone: CR2 with Satterthwaite's degrees of freedom on the two
 * groups' means,
 *
 *     se² = Σ u²,   u = Σ e₃ / (n₃ √(1 − a/n₃)) − Σ eₛ / (nₛ √(1 − b/nₛ)),   a, b a taster's answers in either group, e about its mean
 *
 * @param rows   attribute 1 … 5 (3 = just about right), liking in any unit; rows with a gap are counted and left out; without a
 *               taster each row is somebody else's
 * @returns      a side, or a just-right group, of fewer than two tasters is null with a note
 * @throws RangeError  an attribute that is not 1 … 5, a liking that is not finite, a level outside (0, 1)
 *
 * Source   ASTM MNL63 (2009), mean drop; Welch (1947), Biometrika 34, 28–35; Bell and McCaffrey (2002), Survey Methodology 28(2)
 * Checked  test/reference/welch-1947-drops.test.ts, test/reference/clustered-drops.test.ts
 * Limits   A drop goes with the answer, it need not be caused by it; sides below a fifth of the tasters are noise.
 */
export function jar(
  rows: readonly {
    readonly attribute: number | null
    readonly liking: number | null
    readonly taster?: string | null
  }[],
  { level }: { readonly level: number },
): JustAboutRight {
  checkLevel(level)
  const complete = rows.flatMap(({ attribute, liking, taster }, at): Answered[] => {
    demand(
      attribute === null || (Number.isInteger(attribute) && attribute >= 1 && attribute <= 5),
      `just about right runs from 1 to 5, got ${attribute}`,
    )
    demand(liking === null || Number.isFinite(liking), `liking must be finite, got ${liking}`)
    return attribute === null || liking === null ? [] : [{ attribute, liking, taster: taster ?? ` ${at}` }]
  })
  const n = complete.length
  const tasters = new Set(complete.map(({ taster }) => taster)).size
  const group = (from: number, to: number) =>
    complete.filter(({ attribute }) => attribute >= from && attribute <= to).toSorted((a, b) => a.liking - b.liking)
  const people = (of: readonly Answered[]) => new Set(of.map(({ taster }) => taster)).size
  const right = group(3, 3)
  const notes = n < rows.length ? [`${rows.length - n} rows with a gap are left out`] : []
  if (n === 0) notes.push('nobody answered both questions')
  if (people(right) < 2)
    notes.push(`${people(right)} said just about right: at least two tasters are needed for a drop`)
  const side = (name: string, of: readonly Answered[]): LikingDrop | null => {
    if (people(of) < 2) notes.push(`${name}: ${people(of)} of ${tasters} tasters, at least two are needed for a drop`)
    if (people(of) < 2 || people(right) < 2) return null
    const drop =
      tasters === n
        ? welch(
            right.map(({ liking }) => liking),
            of.map(({ liking }) => liking),
            level,
          )
        : byTasters(right, of, level)
    if (drop.se === 0) notes.push(`${name}: liking does not differ within either group, so no test`)
    return { n: of.length, share: of.length / n, ...drop }
  }
  const tooLittle = side('too little', group(1, 2))
  const tooMuch = side('too much', group(4, 5))
  return {
    verb: 'jar',
    level,
    counts: { tasters, answers: n, missing: rows.length - n },
    method: `mean liking of just about right less that of a side, ${
      tasters === n
        ? 'Welch’s t test and interval'
        : 'error by tasters (CR2) with Satterthwaite’s degrees of freedom, for some tasters gave several answers'
    }`,
    notes,
    shares: n === 0 ? null : [1, 2, 3, 4, 5].map((point) => group(point, point).length / n),
    justRight: people(right) < 2 ? null : { n: right.length, mean: mean(right.map(({ liking }) => liking)) },
    tooLittle,
    tooMuch,
  }
}

interface Answered {
  readonly attribute: number
  readonly liking: number
  readonly taster: string
}

function welch(right: readonly number[], side: readonly number[], level: number) {
  const meanDrop = mean([...right]) - mean([...side])
  const [a, b] = [sampleVariance([...right]) / right.length, sampleVariance([...side]) / side.length]
  const se = Math.sqrt(a + b)
  if (se === 0) return { meanDrop, se, df: null, interval: null, p: null }
  const df = (a + b) ** 2 / (a ** 2 / (right.length - 1) + b ** 2 / (side.length - 1))
  const reach = se * studentQuantile((1 + level) / 2, df)
  const interval: Interval = [meanDrop - reach, meanDrop + reach]
  return { meanDrop, se, df, interval, p: studentTwoSided(meanDrop / se, df) }
}

/** The difference of two groups' means with an error that believes only in the tasters. */
function byTasters(right: readonly Answered[], side: readonly Answered[], level: number) {
  const groups = [right, side].map((of) => ({ of, n: of.length, mean: mean(of.map(({ liking }) => liking)) }))
  const meanDrop = (groups[0]?.mean ?? lost()) - (groups[1]?.mean ?? lost())
  const tasters = [...new Set([...right, ...side].map(({ taster }) => taster))]
  // per taster and group: how many answers, and their residuals' sum; 0 where the taster is the whole group
  const parts = tasters.map((taster) =>
    groups.map(({ of, n, mean: middle }) => {
      const own = of.filter((one) => one.taster === taster)
      const rest = own.reduce((sum, { liking }) => sum + liking - middle, 0)
      const spread = Math.sqrt(1 - own.length / n)
      return { n, size: own.length, weight: spread > 0 ? 1 / (n * spread) : 0, rest }
    }),
  )
  const largest = Math.max(...[...right, ...side].map(({ liking }) => Math.abs(liking)))
  const variance = parts.reduce((sum, [a = lost(), b = lost()]) => {
    const u = a.weight * a.rest - b.weight * b.rest
    return sum + u * u
  }, 0)
  const se = Math.sqrt(variance)
  if (se <= 16 * Number.EPSILON * largest) return { meanDrop, se: 0, df: null, interval: null, p: null }
  let [trace, squares] = [0, 0]
  for (const one of parts) {
    for (const other of parts) {
      const shared = one.reduce((sum, { n, size, weight }, g) => {
        const twin = other[g] ?? lost()
        return sum + (size * weight * twin.size * twin.weight) / n
      }, 0)
      const own = one === other ? one.reduce((sum, { size, weight }) => sum + size * weight ** 2, 0) : 0
      if (one === other) trace += own - shared
      squares += (own - shared) ** 2
    }
  }
  const df = trace ** 2 / squares
  const reach = se * studentQuantile((1 + level) / 2, df)
  const interval: Interval = [meanDrop - reach, meanDrop + reach]
  return { meanDrop, se, df, interval, p: studentTwoSided(meanDrop / se, df) }
}
