import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { FEWEST_TASTERS } from '../liking/claims'
import { studentReach } from '../model/contrast'
import { seededRandom } from '../random'
import { MIDDLE, normals, onScale } from './played-scores'

/** One cup better than all others, every pair planned, every taster given every cup. */
export interface BestQuestion {
  /** K, 2 to 15 */
  readonly cups: number
  /** standard deviation of one score about its taster's own mean, points */
  readonly sd: number
  /** how much better cup 1 is than every other, above 0 */
  readonly difference: number
  /** standard deviation between tasters (1) */
  readonly tasterSd?: number | undefined
  readonly level: number
  /** scores lie on steps of this size and are cut to 1 … 9; 0: neither (1) */
  readonly step?: number | undefined
  readonly seed: number
}

/** How many tasters let the best stand alone. */
export interface TastersForBest {
  readonly power: number
  readonly panels: number
  /** from so many tasters on the rehearsed chance reaches the power; null where `most` do not */
  readonly n: number | null
  /** what n may be, for all these panels tell: where the chance reaches the power less and plus two simulation errors */
  readonly low: number | null
  readonly high: number | null
  /** tasters looked at */
  readonly most: number
}

const MOST_TASTERS = 1000
const FIRST_LOOK = 64
/** Simulation errors to either side: about 95 of 100. */
const ERRORS = 2

/**
 * How likely is it that the best of some cups is claimed better than every other, by the number of tasters?
 *
 *     cup 1 stands alone at n:  d̄ₖ − t(1 − α/m, n − 1) · max(√(s²ₖ/n), S/√(6n)) > 0  for every other cup k,
 *     dₖ the first n tasters' own differences cup 1 − cup k, s²ₖ their sample variance, m = K(K − 1)/2, S the step
 *
 * Each panel is played once to the last taster and read after every one, so that all numbers of tasters are judged on the same scores
 * (common random numbers), and the curve is far smoother than its single points are sure.
 *
 * @param panels  how many, at least 1
 * @param most    tasters, 1 to 1000
 * @returns       the share of panels at 0, 1, … `most` tasters
 * @throws RangeError  a number outside its range
 *
 * Source   the claims of `foundClaims`; common random numbers: Glasserman and Yao (1992), Management Science 38(6), 884–908
 * Checked  test/reference/tasters-for-best.test.ts (R's power for two cups, R's own panels for more)
 * Cost     panels × most × cups
 */
export function chanceOfBest(question: BestQuestion, panels: number, most: number): Float64Array {
  check(question)
  demand(Number.isInteger(panels) && panels >= 1, `the number of panels must be a whole number from 1, got ${panels}`)
  demand(
    Number.isInteger(most) && most >= 1 && most <= MOST_TASTERS,
    `the number of tasters must be 1 to ${MOST_TASTERS}, got ${most}`,
  )
  const { cups, sd, difference, tasterSd = 1, level, step = 1 } = question
  const normal = normals(seededRandom(question.seed))
  const jointLevel = 1 - (1 - level) / ((cups * (cups - 1)) / 2)
  const reach = Float64Array.from({ length: most + 1 }, (_, n) =>
    n < FEWEST_TASTERS ? Infinity : studentReach(jointLevel, n - 1),
  )
  const alone = new Float64Array(most + 1)
  const sums = new Float64Array(cups)
  const squares = new Float64Array(cups)
  for (let panel = 0; panel < panels; panel++) {
    sums.fill(0)
    squares.fill(0)
    for (let n = 1; n <= most; n++) {
      const own = MIDDLE + tasterSd * normal()
      const score = (effect: number) => {
        const exact = own + effect + sd * normal()
        return step > 0 ? onScale(exact, step) : exact
      }
      const best = score(difference)
      let isAlone = true
      for (let cup = 1; cup < cups; cup++) {
        const d = best - score(0)
        const sum = (sums[cup] = (sums[cup] ?? lost()) + d)
        const square = (squares[cup] = (squares[cup] ?? lost()) + d * d)
        // d̄ > t · se, both sides times n: the error of the sum is √(n s²), its floor S √(n/6)
        const spread = n < 2 ? Infinity : (n * square - sum * sum) / (n - 1)
        const error = Math.sqrt(Math.max(spread, (step * step * n) / 6))
        if (!(sum > (reach[n] ?? Infinity) * error)) isAlone = false
      }
      if (isAlone) alone[n] = (alone[n] ?? lost()) + 1
    }
  }
  return alone.map((times) => times / panels)
}

/**
 * How many tasters does it take that the best stands alone, as a rehearsal tells?
 *
 * @param power   to reach, 0 < power < 1
 * @param panels  how many, at least 1
 * @param most    tasters looked at, 1 to 1000
 * @throws RangeError  a number outside its range
 *
 * Checked  test/reference/tasters-for-best.test.ts
 * Limits   every taster scores every cup once
 */
export function tastersForBest(question: BestQuestion, power: number, panels: number, most: number): TastersForBest {
  demand(power > 0 && power < 1, `the power must lie between 0 and 1, got ${power}`)
  const give = ERRORS * Math.sqrt((power * (1 - power)) / panels)
  let look = Math.min(FIRST_LOOK, most)
  let chances = chanceOfBest(question, panels, look)
  while (look < most && (chances[look] ?? lost()) < power + 2 * give) {
    look = Math.min(2 * look, most)
    chances = chanceOfBest(question, panels, look)
  }
  return {
    power,
    panels,
    n: reachedFor(chances, power),
    low: reachedFor(chances, power - give),
    high: reachedFor(chances, power + give),
    most,
  }
}

/** From where on is the chance never below this? */
function reachedFor(chances: Float64Array, chance: number): number | null {
  let from: number | null = null
  for (let n = chances.length - 1; n >= 0 && (chances[n] ?? lost()) >= chance; n--) from = n
  return from
}

function check({ cups, sd, difference, tasterSd = 1, level, step = 1 }: BestQuestion): void {
  demand(Number.isInteger(cups) && cups >= 2 && cups <= 15, `the number of cups must be 2 to 15, got ${cups}`)
  demand(sd > 0 && Number.isFinite(sd), `the standard deviation must be above 0, got ${sd}`)
  demand(difference > 0 && Number.isFinite(difference), `the difference must be above 0, got ${difference}`)
  demand(tasterSd >= 0 && Number.isFinite(tasterSd), `the spread of tasters must be 0 or above, got ${tasterSd}`)
  demand(level > 0 && level < 1, `a level must lie between 0 and 1, got ${level}`)
  demand(step >= 0 && Number.isFinite(step), `a step must be 0 or above, got ${step}`)
}
