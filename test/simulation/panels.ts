import { normalQuantile } from '@/lib/stats/distribution/normal'
import { firstVerdict as acceptance } from '@/lib/stats/liking/first-verdict'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import { seededRandom, type SeededRandom } from '@/lib/stats/random'

/** A kind of panel in which no cup is truly better than another, so that every verdict is a false alarm. */
export interface Scenario {
  readonly name: string
  readonly tasters: number
  readonly cups: number
  readonly perTaster: number
  /** half the tasters like cup 1 this much more, half this much less: no better on the whole, but dividing */
  readonly divided: number
  /** rounded to whole points from 1 to 9 */
  readonly rounded: boolean
}

/** The panels the statistics core has to hold for: taster sd 1, residual sd 1.2, true mean 5 for every cup. */
export const SCENARIOS: readonly Scenario[] = [
  { name: '8 tasters, 3 cups', tasters: 8, cups: 3, perTaster: 3, divided: 0, rounded: false },
  { name: '24 tasters, 4 of 6 cups', tasters: 24, cups: 6, perTaster: 4, divided: 0, rounded: false },
  { name: '60 tasters, 5 cups', tasters: 60, cups: 5, perTaster: 5, divided: 0, rounded: false },
  { name: '24 tasters, 4 cups, one divides them', tasters: 24, cups: 4, perTaster: 4, divided: 2, rounded: false },
  { name: '24 tasters, 4 cups, nine points', tasters: 24, cups: 4, perTaster: 4, divided: 0, rounded: true },
]

/** What the intervals and verdicts of many panels came to. */
export interface Tally {
  readonly name: string
  readonly panels: number
  /** share of the intervals of differences, on the basis of the verdict, that hold the true 0 */
  readonly differences: number
  /** share of the intervals of the cups' marginal means that hold the true 5 */
  readonly means: number
  /** share of panels with any verdict but "cannot tell" */
  readonly falseAlarms: number
}

const MEAN = 5
const LEVEL = 0.95

/** Pours as many panels as asked for and counts what the analysis says about them. */
export function tally(scenario: Scenario, panels: number, seed: number): Tally {
  const random = seededRandom(seed)
  let [held, asked, meansHeld, meansAsked, alarms] = [0, 0, 0, 0, 0]
  for (let panel = 0; panel < panels; panel++) {
    const answer = acceptance(pour(scenario, random), { level: LEVEL })
    for (const pair of answer.pairs) {
      const interval = pair.verdict.basis === 'paired' ? pair.paired.interval : pair.interval
      asked++
      if (interval && interval[0] <= 0 && interval[1] >= 0) held++
    }
    for (const { interval } of answer.cups) {
      meansAsked++
      if (interval && interval[0] <= MEAN && interval[1] >= MEAN) meansHeld++
    }
    if (answer.pairs.some(({ verdict }) => verdict.outcome !== 'cannot tell')) alarms++
  }
  return {
    name: scenario.name,
    panels,
    differences: held / asked,
    means: meansHeld / meansAsked,
    falseAlarms: alarms / panels,
  }
}

function pour({ tasters, cups, perTaster, divided, rounded }: Scenario, random: SeededRandom): AcceptanceRow[] {
  const normal = () => normalQuantile(random.unit() + 2 ** -54)
  const all = Array.from({ length: cups }, (_, cup) => cup)
  return Array.from({ length: tasters }, (_, taster) => {
    const own = normal()
    const side = random.below(2) === 0 ? divided : -divided
    const served = perTaster < cups ? random.shuffle(all).slice(0, perTaster) : all
    return served.map((cup) => {
      const liking = MEAN + own + (cup === 0 ? side : 0) + 1.2 * normal()
      const score = rounded ? Math.min(9, Math.max(1, Math.round(liking))) : liking
      return { taster: `taster ${taster + 1}`, cup: `cup ${cup + 1}`, score }
    })
  }).flat()
}
