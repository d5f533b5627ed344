import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { demand } from '@/lib/base/demand'

/** Chance that can be repeated: what one seed gives is given again, on any machine. */
export interface SeededRandom {
  /** 0 ≤ u < 1, a multiple of 2⁻⁵³ */
  unit(): number
  /** a whole number from 0 to n − 1, each equally likely; 1 ≤ n ≤ 2⁵³ */
  below(n: number): number
  /** a new list in random order (Fisher and Yates); the one given stays as it is */
  shuffle<T>(list: readonly T[]): T[]
}

/**
 * Which sequence of chances belongs to this seed?
 *
 *     xoroshiro128+, whole numbers by rejection, so that no value is favoured
 *
 * @param seed  a whole number of 32 bits, −2³¹ … 2³² − 1; only its 32 bits count, so −1 and 2³² − 1 are one seed
 * @throws RangeError  seed not such a number
 *
 * Source   Blackman and Vigna (2021), ACM Trans. Math. Softw. 47(4), 36; pure-rand
 * Checked  test/unit/stats/random.test.ts
 * Limits   For designs and resampling only: whoever knows the answers can search all seeds. Codes, jug letters and
 *          what cup stands for which trial come from the operating system's randomness instead.
 */
export function seededRandom(seed: number): SeededRandom {
  demand(
    Number.isInteger(seed) && seed >= -(2 ** 31) && seed < 2 ** 32,
    `a seed must be a whole number of 32 bits, got ${seed}`,
  )
  const source = xoroshiro128plus(seed | 0)

  function below(n: number): number {
    demand(Number.isSafeInteger(n) && n >= 1, `below needs a whole number from 1, got ${n}`)
    return uniformInt(source, 0, n - 1)
  }

  function shuffle<T>(list: readonly T[]): T[] {
    const drawn = [...list]
    for (let last = drawn.length - 1; last > 0; last -= 1) {
      const at = below(last + 1)
      const kept = drawn[last] as T
      drawn[last] = drawn[at] as T
      drawn[at] = kept
    }
    return drawn
  }

  return { unit: () => uniformFloat64(source), below, shuffle }
}
