import { mean, sampleVariance } from 'simple-statistics'
import { demand } from '@/lib/base/demand'
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

export interface JustAboutRight extends Answer<'jar', { readonly tasters: number; readonly missing: number }> {
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
 * @param rows   attribute 1 … 5 (3 = just about right), liking in any unit; rows with a gap are counted and left out
 * @returns      a side, or a just-right group, of fewer than two people is null with a note
 * @throws RangeError  an attribute that is not 1 … 5, a liking that is not finite, a level outside (0, 1)
 *
 * Source   ASTM MNL63 (2009), mean drop; Welch (1947), Biometrika 34, 28–35
 * Checked  test/reference/welch-1947-drops.test.ts
 * Limits   A drop goes with the answer, it need not be caused by it; sides below a fifth of the tasters are noise.
 */
export function jar(
  rows: readonly { readonly attribute: number | null; readonly liking: number | null }[],
  { level }: { readonly level: number },
): JustAboutRight {
  checkLevel(level)
  const complete = rows.flatMap(({ attribute, liking }) => {
    demand(
      attribute === null || (Number.isInteger(attribute) && attribute >= 1 && attribute <= 5),
      `just about right runs from 1 to 5, got ${attribute}`,
    )
    demand(liking === null || Number.isFinite(liking), `liking must be finite, got ${liking}`)
    return attribute === null || liking === null ? [] : [{ attribute, liking }]
  })
  const n = complete.length
  const likingOf = (from: number, to: number): number[] =>
    complete
      .flatMap(({ attribute, liking }) => (attribute >= from && attribute <= to ? [liking] : []))
      .sort((a, b) => a - b)
  const right = likingOf(3, 3)
  const notes = n < rows.length ? [`${rows.length - n} rows with a gap are left out`] : []
  if (n === 0) notes.push('nobody answered both questions')
  if (right.length < 2) notes.push(`${right.length} of ${n} said just about right: at least two are needed for a drop`)
  const side = (name: string, liking: readonly number[]): LikingDrop | null => {
    if (liking.length < 2) notes.push(`${name}: ${liking.length} of ${n}, at least two are needed for a drop`)
    if (liking.length < 2 || right.length < 2) return null
    const drop = welch(right, liking, level)
    if (drop.se === 0) notes.push(`${name}: liking does not differ within either group, so no test`)
    return { n: liking.length, share: liking.length / n, ...drop }
  }
  const tooLittle = side('too little', likingOf(1, 2))
  const tooMuch = side('too much', likingOf(4, 5))
  return {
    verb: 'jar',
    level,
    counts: { tasters: n, missing: rows.length - n },
    method: 'mean liking of just about right less that of a side, Welch’s t test and interval',
    notes,
    shares: n === 0 ? null : [1, 2, 3, 4, 5].map((point) => likingOf(point, point).length / n),
    justRight: right.length < 2 ? null : { n: right.length, mean: mean(right) },
    tooLittle,
    tooMuch,
  }
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
