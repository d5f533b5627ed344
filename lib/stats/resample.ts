import { quantileSorted } from 'simple-statistics'
import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { checkLevel } from './check-level'
import type { Interval } from './outcome'
import { seededRandom } from './random'

/**
 * How much would a figure move if other tasters of the same kind had come?
 *
 *     n readings drawn from the n with replacement, `draws` times; the (1 ± level) / 2 quantiles of the figure (type 7)
 *
 * @param readings  one per taster, any unit; sorted here, so that the order of rows changes nothing
 * @param figure    what is computed from each draw
 * @param draws     100 … 1 000 000
 * @param seed      a whole number; the same seed gives the same interval on any machine
 * @throws RangeError  fewer than two readings, draws outside the range, a figure that is not finite
 *
 * Source   Efron (1979), Annals of Statistics 7(1), 1–26; percentile interval
 * Checked  test/unit/stats/resample.test.ts
 * Limits   Too short for few readings: with 10, a 95 % interval covers about 90 %.
 * Cost     draws × the figure
 */
export function bootstrapInterval(
  readings: readonly number[],
  figure: (drawn: readonly number[]) => number,
  { level, draws, seed }: { readonly level: number; readonly draws: number; readonly seed: number },
): Interval {
  checkLevel(level)
  checkDraws(draws)
  demand(readings.length >= 2, `a bootstrap needs at least two readings, got ${readings.length}`)
  const from = readings.toSorted((a, b) => a - b)
  const random = seededRandom(seed)
  const figures = Array.from({ length: draws }, () => {
    const value = figure(from.map(() => from[random.below(from.length)] ?? lost()))
    demand(Number.isFinite(value), `a resampled figure must be finite, got ${value}`)
    return value
  }).sort((a, b) => a - b)
  return [quantileSorted(figures, (1 - level) / 2), quantileSorted(figures, (1 + level) / 2)]
}

/**
 * Could the tasters' differences have this mean if each might as well have had the other sign?
 *
 *     p = (1 + #{draws: |Σ ± d| ≥ |Σ d|}) / (1 + draws)
 *
 * @param differences  one per taster; sorted by size here
 * @returns            two-sided p, never 0
 * @throws RangeError  draws outside 100 … 1 000 000, a difference that is not finite
 *
 * Source   Fisher (1935), The Design of Experiments, 21; (b + 1) / (m + 1): Davison & Hinkley (1997), 4.2
 * Checked  test/unit/stats/resample.test.ts
 */
export function signFlipTest(
  differences: readonly number[],
  { draws, seed }: { readonly draws: number; readonly seed: number },
): number {
  checkDraws(draws)
  for (const d of differences) demand(Number.isFinite(d), `a difference must be finite, got ${d}`)
  const sizes = differences.map(Math.abs).sort((a, b) => a - b)
  const seen = Math.abs(differences.toSorted((a, b) => a - b).reduce((sum, d) => sum + d, 0))
  const least = seen - 1e-12 * sizes.reduce((sum, d) => sum + d, 0)
  const random = seededRandom(seed)
  return overDraws(draws, () => Math.abs(sizes.reduce((sum, d) => sum + (random.below(2) === 0 ? d : -d), 0)) >= least)
}

/**
 * Could two groups differ in their means this much if the readings had been dealt out by chance?
 *
 *     p = (1 + #{draws: |m₁ − m₂| ≥ the difference seen}) / (1 + draws), the first n₁ of a shuffled list against the rest
 *
 * @param one    readings of one group, at least one
 * @param other  readings of the other
 * @returns      two-sided p, never 0
 * @throws RangeError  an empty group, draws outside 100 … 1 000 000, a reading that is not finite
 *
 * Source   Fisher (1935), The Design of Experiments; Davison & Hinkley (1997), 4.3
 * Checked  test/unit/stats/resample.test.ts
 * Limits   For different tasters in the two groups; the same tasters belong into `signFlipTest`.
 */
export function permutationTest(
  one: readonly number[],
  other: readonly number[],
  { draws, seed }: { readonly draws: number; readonly seed: number },
): number {
  checkDraws(draws)
  for (const group of [one, other]) demand(group.length > 0, `a group must not be empty, got ${group.length} readings`)
  const all = [...one, ...other].sort((a, b) => a - b)
  for (const x of all) demand(Number.isFinite(x), `a reading must be finite, got ${x}`)
  const random = seededRandom(seed)
  const total = all.reduce((sum, x) => sum + x, 0)
  const small = Math.min(one.length, other.length)
  const gap = (part: readonly number[]): number => {
    const own = part.reduce((sum, x) => sum + x, 0)
    return Math.abs(own / part.length - (total - own) / (all.length - part.length))
  }
  const seen = gap((one.length <= other.length ? one : other).toSorted((a, b) => a - b))
  const least = seen - 1e-12 * all.reduce((most, x) => Math.max(most, Math.abs(x)), 0)
  return overDraws(draws, () => gap(random.shuffle(all).slice(0, small)) >= least)
}

function checkDraws(draws: number): void {
  demand(
    Number.isInteger(draws) && draws >= 100 && draws <= 1_000_000,
    `draws must be a whole number from 100 to 1000000, got ${draws}`,
  )
}

/** The arrangement seen is one of those that chance could give, so it counts. */
function overDraws(draws: number, asFar: () => boolean): number {
  let far = 1
  for (let draw = 0; draw < draws; draw += 1) if (asFar()) far += 1
  return far / (draws + 1)
}
