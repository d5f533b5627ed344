import { demand } from '@/lib/base/demand'
import type { Answer } from '../outcome'

/** Either a power to reach or a number of tasters to judge. */
export type Aim = { readonly power: number } | { readonly n: number }

export interface TastersAnswer extends Answer<'tasters', { readonly tasters: number }> {
  readonly n: number
  readonly power: number
  /** the critical number of an exact test at n; null where no count can reach significance */
  readonly critical?: number | null
}

/** No panel is larger than this: a search that gets here asks for something nobody can pour. */
const MOST_TASTERS = 1_000_000

/**
 * Checks the aim of a plan.
 *
 * @throws RangeError  power outside (0, 1), n not a whole number from `least`
 */
export function checkAim(aim: Aim, least: number): void {
  if ('n' in aim) {
    demand(
      Number.isInteger(aim.n) && aim.n >= least && aim.n <= MOST_TASTERS,
      `the number of tasters must be a whole number from ${least} to ${MOST_TASTERS}, got ${aim.n}`,
    )
  } else demand(aim.power > 0 && aim.power < 1, `power must lie between 0 and 1, got ${aim.power}`)
}

/**
 * From which n on is a power reached that only grows with n?
 *
 * Doubling, then halving: some 2 log₂ n evaluations.
 *
 * @param powerAt  never falls as n grows
 * @param target   power, 0 < target < 1
 * @param least    smallest n the test is defined for
 * @throws RangeError  not reached at a million tasters
 *
 * Checked  test/unit/stats/plan/power.test.ts
 */
export function smallestGrowing(powerAt: (n: number) => number, target: number, least: number): number {
  let low = least - 1
  let high = least
  while (powerAt(high) < target) {
    demand(high < MOST_TASTERS, `no panel of up to ${MOST_TASTERS} tasters reaches power ${target}`)
    low = high
    high = Math.min(MOST_TASTERS, high * 2)
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (powerAt(middle) < target) low = middle
    else high = middle
  }
  return high
}

/**
 * From which n on is a saw-toothed power first reached, and from which n on for good?
 *
 * Every n is tried. The lowest points of the teeth rise, so the search ends once a stretch as long as several teeth, and
 * a tenth of n, has held.
 *
 * @param powerAt  power at n
 * @param target   power, 0 < target < 1
 * @param from     where to begin: no n below reaches the target
 * @param tooth    about how many n one tooth is wide
 * @throws RangeError  not reached at a million tasters
 *
 * Checked  test/reference/difference-power.test.ts
 * Cost     proportional to n
 */
export function smallestSawToothed(
  powerAt: (n: number) => number,
  target: number,
  from: number,
  tooth: number,
): { first: number; forGood: number } {
  let first: number | null = null
  let forGood: number | null = null
  for (let n = from; ; n++) {
    demand(n <= MOST_TASTERS, `no panel of up to ${MOST_TASTERS} tasters reaches power ${target}`)
    if (powerAt(n) < target) forGood = null
    else {
      first ??= n
      forGood ??= n
      if (n - forGood > 10 * tooth + 0.1 * n) return { first, forGood }
    }
  }
}

/** One sentence about the teeth, for the notes of an answer. */
export function sawToothNote(n: number, forGood: number, power: number): string {
  return forGood === n
    ? `The power of an exact test is saw-toothed in n: from ${n} tasters on it stays at or above ${power} for good.`
    : `The power of an exact test is saw-toothed in n: ${n} tasters reach ${power}, but only from ${forGood} on does it stay there for good.`
}
