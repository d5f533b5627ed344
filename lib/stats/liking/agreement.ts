import { mean, sampleCorrelation, sampleStandardDeviation } from 'simple-statistics'
import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { checkLevel } from '../check-level'
import { fQuantile, fUpper } from '../distribution/f'
import { friedman } from '../rank/friedman'
import type { Answer, Interval } from '../outcome'
import { tasterTable } from '../taster-table'

export type IccType = 'ICC(1,1)' | 'ICC(2,1)' | 'ICC(3,1)' | 'ICC(1,k)' | 'ICC(2,k)' | 'ICC(3,k)'

/** Null stands for what the readings do not determine (no spread, or no error to compare with). */
export interface IccCoefficient {
  readonly type: IccType
  readonly estimate: number | null
  readonly F: number | null
  readonly df1: number
  readonly df2: number
  readonly p: number | null
  readonly interval: Interval | null
}

/**
 * How far do tasters tell the cups apart in the same way?
 *
 *     n cups, k tasters; mean squares between cups B, between tasters J, residual E, within cups W
 *     ICC(1,1) = (B − W) / (B + (k − 1) W)                       ICC(1,k) = (B − W) / B
 *     ICC(2,1) = (B − E) / (B + (k − 1) E + k (J − E) / n)       ICC(2,k) = (B − E) / (B + (J − E) / n)
 *     ICC(3,1) = (B − E) / (B + (k − 1) E)                       ICC(3,k) = (B − E) / B
 *
 * Intervals turn the F quantiles round; for type 2 by Satterthwaite's degrees of freedom.
 *
 * @param complete  k tasters × n cups, complete, one unit
 * @param level     coverage of the intervals, 0 < level < 1
 * @returns         the six, always in the order of `IccType`; null throughout for fewer than two tasters or cups
 * @throws RangeError  rows of unequal length, a reading that is not finite, a level outside (0, 1)
 *
 * Source   Shrout & Fleiss (1979), Psychological Bulletin 86(2), 420–428; McGraw & Wong (1996), Psychological Methods 1(1), 30–46
 * Checked  test/reference/shrout-1979-agreement.test.ts
 * Limits   Type 3 asks only whether cups are ordered alike; type 2 also whether the scale is used alike. May be negative.
 */
export function icc(complete: readonly (readonly number[])[], level: number): IccCoefficient[] {
  checkLevel(level)
  const k = complete.length
  const n = complete[0]?.length ?? 0
  for (const row of complete) {
    demand(row.length === n, `every taster needs ${n} readings, got ${row.length}`)
    for (const x of row) demand(Number.isFinite(x), `a reading must be finite, got ${x}`)
  }
  if (k < 2 || n < 2) return unknown(n, k)

  const { B, J, E, W } = meanSquares(complete, n, k)
  const cups = n - 1
  const inner = (n - 1) * (k - 1)
  const F1 = ratio(B, W)
  const F3 = ratio(B, E)
  const single = (F: number): number => (F - 1) / (F + k - 1)
  const average = (F: number): number => 1 - 1 / F
  const one = { F: F1, df1: cups, df2: n * (k - 1), p: tail(F1, cups, n * (k - 1)) }
  const three = { F: F3, df1: cups, df2: inner, p: tail(F3, cups, inner) }
  const ends1 = turned(F1, cups, n * (k - 1), level)
  const ends3 = turned(F3, cups, inner, level)
  const estimate2 = ratio(B - E, B + (k - 1) * E + (k * (J - E)) / n)
  const ends2 = estimate2 === null || E === 0 ? null : typeTwoInterval(B, J, E, n, k, estimate2, level)
  const stepUp = (x: number): number => (x * k) / (1 + x * (k - 1))
  return [
    { type: 'ICC(1,1)', estimate: ratio(B - W, B + (k - 1) * W), ...one, interval: through(ends1, single) },
    { type: 'ICC(2,1)', estimate: estimate2, ...three, interval: through(ends2, (x) => x) },
    { type: 'ICC(3,1)', estimate: ratio(B - E, B + (k - 1) * E), ...three, interval: through(ends3, single) },
    { type: 'ICC(1,k)', estimate: ratio(B - W, B), ...one, interval: through(ends1, average) },
    { type: 'ICC(2,k)', estimate: ratio(B - E, B + (J - E) / n), ...three, interval: through(ends2, stepUp) },
    { type: 'ICC(3,k)', estimate: ratio(B - E, B), ...three, interval: through(ends3, average) },
  ]
}

/**
 * How far do the tasters order the cups alike, without intervals?
 *
 *     single = ICC(3,1) = (B − E) / (B + (k − 1) E),   average = ICC(3,k) = (B − E) / B
 *
 * @param complete  k tasters × n cups, complete
 * @returns         null for fewer than two tasters or cups, and where nothing varies
 *
 * Source   Shrout & Fleiss (1979), Psychological Bulletin 86(2), 420–428
 * Checked  test/reference/shrout-1979-agreement.test.ts, test/unit/stats/liking/agreement.test.ts
 */
export function consistency(complete: readonly (readonly number[])[]): {
  readonly single: number | null
  readonly average: number | null
} {
  const k = complete.length
  const n = complete[0]?.length ?? 0
  if (k < 2 || n < 2) return { single: null, average: null }
  const { B, E } = meanSquares(complete, n, k)
  return { single: ratio(B - E, B + (k - 1) * E), average: ratio(B - E, B) }
}

export interface TasterAgreement {
  readonly taster: string
  /** with the mean of all other tasters, over cups; null where either has no spread, or alone */
  readonly correlationWithOthers: number | null
  /** standard deviation of the taster's own cup means */
  readonly sd: number | null
  /** cups against the taster's own repeats; null without repeats, or where repeats never differ */
  readonly F: number | null
}

export interface Agreement extends Answer<
  'agreement',
  { readonly tasters: number; readonly cups: number; readonly scores: number; readonly missing: number }
> {
  readonly icc: readonly IccCoefficient[]
  readonly kendallW: number | null
  readonly tasters: readonly TasterAgreement[]
}

/**
 * Do the tasters agree about the cups, and does each agree with the others and with themselves?
 *
 *     six intraclass coefficients, Kendall's W, each taster's correlation with the mean of the others,
 *     and F = mean square between cups / mean square of repeats, per taster
 *
 * @param rows  one per score, any order; repeats of a taster and cup are averaged first; null is a gap
 * @returns     over the tasters who scored every cup; the others are counted in a note
 * @throws RangeError  a score that is not finite, a level outside (0, 1)
 *
 * Source   Shrout & Fleiss (1979); Kendall & Babington Smith (1939); F per taster: ISO 11132, ISO 8586
 * Checked  test/reference/shrout-1979-agreement.test.ts
 * Limits   Agreement is not liking: consumers may rightly disagree.
 */
export function agreement(
  rows: readonly { readonly taster: string; readonly cup: string; readonly score: number | null }[],
  { level }: { readonly level: number },
): Agreement {
  checkLevel(level)
  const table = tasterTable(rows.map(({ taster, cup, score }) => ({ taster, cup, value: score })))
  const complete = table.tasters.flatMap((taster, i) => {
    const cells = table.cells[i] ?? []
    return cells.every((cell) => cell.length > 0)
      ? [{ taster, cells, means: cells.map((cell) => mean([...cell])) }]
      : []
  })
  const means = complete.map((row) => row.means)
  const ranks = friedman(means)
  const coefficients = icc(means, level)
  const left = table.tasters.length + table.emptyTasters.length - complete.length
  const notes = [
    ...(table.emptyCups.length > 0 ? [`never scored, left out: ${table.emptyCups.join(', ')}`] : []),
    ...(left > 0 ? [`${left} of ${left + complete.length} tasters did not score every cup and are left out`] : []),
    ...(complete.some(({ cells }) => cells.some((cell) => cell.length > 1))
      ? ['repeats are averaged, except in F']
      : []),
    ...(complete.length < 2 || table.cups.length < 2 ? ['agreement needs at least two tasters and two cups'] : []),
    ...(coefficients.some((c) => c.F === null) && complete.length > 1 && table.cups.length > 1
      ? ['without spread within cups there is no F, no p and no interval']
      : []),
    ...(coefficients.some((c) => c.F !== null && c.interval === null)
      ? ['an interval that would have no end is left out']
      : []),
  ]
  return {
    verb: 'agreement',
    level,
    counts: { tasters: complete.length, cups: table.cups.length, scores: table.readings, missing: table.missing },
    method:
      'intraclass correlations of Shrout and Fleiss with F intervals; Kendall’s W with ties; Pearson correlation with the mean of the others; one-way F per taster',
    notes,
    icc: coefficients,
    kendallW: complete.length < 2 ? null : ranks.kendallW,
    tasters: complete.map(({ taster, cells, means: own }, i) => ({
      taster,
      correlationWithOthers: correlation(own, meanOf(means.filter((_, other) => other !== i))),
      sd: own.length < 2 ? null : sampleStandardDeviation(own),
      F: repeatsF(cells),
    })),
  }
}

function meanSquares(complete: readonly (readonly number[])[], n: number, k: number) {
  const grand = mean(complete.flat())
  const cups = meanOf(complete)
  const tasters = complete.map((row) => mean([...row]))
  const square = (list: readonly number[]): number => list.reduce((sum, x) => sum + x * x, 0)
  const residuals = complete.flatMap((row, i) =>
    row.map((x, j) => x - (tasters[i] ?? lost()) - (cups[j] ?? lost()) + grand),
  )
  const total = square(complete.flat().map((x) => x - grand))
  const floor = (ss: number): number => (ss <= 1e-24 * Math.max(total, grand * grand) ? 0 : ss)
  const b = floor(k * square(cups.map((x) => x - grand)))
  const j = floor(n * square(tasters.map((x) => x - grand)))
  const e = floor(square(residuals))
  return { B: b / (n - 1), J: j / (k - 1), E: e / ((n - 1) * (k - 1)), W: (j + e) / (n * (k - 1)) }
}

function typeTwoInterval(
  B: number,
  J: number,
  E: number,
  n: number,
  k: number,
  estimate: number,
  level: number,
): Interval | null {
  const a = (k * estimate * J) / E
  const b = n * (1 + (k - 1) * estimate) - k * estimate
  const v = ((k - 1) * (n - 1) * (a + b) ** 2) / ((n - 1) * a * a + b * b)
  if (!(v > 0)) return null
  const upper = fQuantile((1 + level) / 2, n - 1, v)
  const lower = fQuantile((1 + level) / 2, v, n - 1)
  const spread = k * J + (k * n - k - n) * E
  return [(n * (B - upper * E)) / (upper * spread + n * B), (n * (lower * B - E)) / (spread + n * lower * B)]
}

function turned(F: number | null, df1: number, df2: number, level: number): Interval | null {
  if (F === null || F === 0) return null
  return [F / fQuantile((1 + level) / 2, df1, df2), F * fQuantile((1 + level) / 2, df2, df1)]
}

function through(ends: Interval | null, f: (x: number) => number): Interval | null {
  const [low, high] = ends ? [f(ends[0]), f(ends[1])] : [NaN, NaN]
  return Number.isFinite(low) && Number.isFinite(high) && low <= high ? [low, high] : null
}

function ratio(above: number, below: number): number | null {
  return below === 0 || !Number.isFinite(above / below) ? null : above / below
}

function tail(F: number | null, df1: number, df2: number): number | null {
  return F === null ? null : fUpper(F, df1, df2)
}

function unknown(n: number, k: number): IccCoefficient[] {
  const types: IccType[] = ['ICC(1,1)', 'ICC(2,1)', 'ICC(3,1)', 'ICC(1,k)', 'ICC(2,k)', 'ICC(3,k)']
  return types.map((type) => ({
    type,
    estimate: null,
    F: null,
    df1: Math.max(0, n - 1),
    df2: Math.max(0, type.startsWith('ICC(1') ? n * (k - 1) : (n - 1) * (k - 1)),
    p: null,
    interval: null,
  }))
}

function meanOf(rows: readonly (readonly number[])[]): number[] {
  return (rows[0] ?? []).map((_, j) => mean(rows.map((row) => row[j] ?? lost())))
}

function correlation(own: readonly number[], others: readonly number[]): number | null {
  const flat = (list: readonly number[]): boolean =>
    Math.max(...list) - Math.min(...list) <= 1e-12 * Math.max(...list.map(Math.abs))
  if (own.length < 2 || others.length < 2 || flat(own) || flat(others)) return null
  return Math.max(-1, Math.min(1, sampleCorrelation([...own], [...others])))
}

function repeatsF(cells: readonly (readonly number[])[]): number | null {
  const scores = cells.flat()
  const inner = scores.length - cells.length
  if (inner === 0 || cells.length < 2) return null
  const grand = mean(scores)
  const within = cells.flatMap((cell) => cell.map((x) => (x - mean([...cell])) ** 2)).reduce((sum, x) => sum + x, 0)
  const between = cells.reduce((sum, cell) => sum + cell.length * (mean([...cell]) - grand) ** 2, 0)
  if (within <= 1e-24 * Math.max(between, grand * grand)) return null
  return between / (cells.length - 1) / (within / inner)
}
