import { servingOrders } from '@/lib/panel/order'
import { normalLower, normalQuantile } from '@/lib/stats/distribution/normal'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import type { byMarginOf } from '@/lib/stats/liking/claims'
import { foundClaims, type FoundClaim } from '@/lib/stats/liking/claims'
import { claimPlan, type PlanOptions } from '@/lib/stats/liking/claim-plan'
import { likingReading } from '@/lib/stats/liking/liking-reading'
import { seededRandom, type SeededRandom } from '@/lib/stats/random'

/** A kind of panel whose truth is known. */
export interface Scenario {
  readonly name: string
  readonly tasters: number
  /** trials; a hidden duplicate is one more cup on the tray */
  readonly cups: number
  /** cups each; all when left out */
  readonly perTaster?: number
  /** half the tasters like trial 1 this much more, half this much less: no better on the whole, but dividing */
  readonly divided?: number
  /** rounded to whole points and cut to 1 … 9 */
  readonly rounded?: boolean
  /** what is left after taster and cup leans to one side: exponential, mean 0, the same spread */
  readonly skewed?: boolean
  /** spread of each trial's scores about the taster's own mean, in place of 1.2 */
  readonly spreads?: readonly number[]
  /** added to each trial's mean */
  readonly shifts?: readonly number[]
  /** points that a cup loses from the first place to the last */
  readonly drift?: number
  /** trial 1 is poured twice */
  readonly duplicate?: boolean
  /** share of tasters who leave after their second cup */
  readonly leave?: number
  /** mean of a trial (5) */
  readonly mean?: number
  /** every trial against the last, and by this margin too, read at 90 % */
  readonly margin?: number
}

const TASTER_SD = 1
const REST_SD = 1.2
const LEVEL = 0.95
const MARGIN_LEVEL = 0.9

/**
 * What the claims have to hold for. Taster sd 1, rest 1.2, all trials alike on average unless shifted.
 * The first four are those that the rule was chosen on.
 */
export const SCENARIOS: readonly Scenario[] = [
  { name: '24 × 6, one divides, a fifth leave after two', tasters: 24, cups: 6, divided: 2, leave: 0.2, rounded: true },
  { name: '24, 4 of 6 each, one divides', tasters: 24, cups: 6, perTaster: 4, divided: 2, rounded: true },
  { name: '10, 3 of 5 each, one divides', tasters: 10, cups: 5, perTaster: 3, divided: 2, rounded: true },
  { name: '24, 4 of 6 each, alike', tasters: 24, cups: 6, perTaster: 4, rounded: true },
  { name: '6 × 3, alike', tasters: 6, cups: 3, rounded: true },
  { name: '8 × 4, not rounded', tasters: 8, cups: 4 },
  { name: '60 × 5, alike', tasters: 60, cups: 5, rounded: true },
  { name: '16 × 4, skewed', tasters: 16, cups: 4, skewed: true },
  { name: '16 × 4, skewed and rounded', tasters: 16, cups: 4, skewed: true, rounded: true },
  { name: '24 × 3, spreads 0.5, 1.2 and 2.4', tasters: 24, cups: 3, spreads: [0.5, 1.2, 2.4], rounded: true },
  {
    name: '24 × 3, spreads 0.5, 1.2 and 2.4 near the top of the scale',
    tasters: 24,
    cups: 3,
    spreads: [0.5, 1.2, 2.4],
    mean: 7.5,
    rounded: true,
  },
  { name: '24 × 4, later cups lose 1.5 points', tasters: 24, cups: 4, drift: 1.5, rounded: true },
  {
    name: '24, 3 of 4 each, later cups lose 1.5 points',
    tasters: 24,
    cups: 4,
    perTaster: 3,
    drift: 1.5,
    rounded: true,
  },
  { name: '20 × 3 and a hidden duplicate', tasters: 20, cups: 3, duplicate: true, rounded: true },
  { name: '20 × 3 and a hidden duplicate of the one that divides', tasters: 20, cups: 3, duplicate: true, divided: 2 },
  { name: '24 × 5, a third leave after two', tasters: 24, cups: 5, leave: 1 / 3, rounded: true },
  { name: '24 × 4, half a point apart', tasters: 24, cups: 4, shifts: [0, 0.5, 1, 1.5], rounded: true },
  {
    // a hair beyond: at the margin itself both "not worse" and "better by the margin" would be untrue
    name: '30 × 3, against the last, worse by a hair more than the margin',
    tasters: 30,
    cups: 3,
    shifts: [-0.500001, -0.500001, 0],
    margin: 0.5,
  },
]

/** What the claims of many panels came to. */
export interface Tally {
  readonly name: string
  readonly panels: number
  /** panels in which something could be claimed: 4 degrees of freedom for each interval */
  readonly claimed: number
  /** share of those with any claim of better that is not true */
  readonly falseClaims: number
  /** share of those in which all joint intervals hold the truth */
  readonly coverage: number
  /** share of those with a claim by the margin that is not true; null without a margin */
  readonly falseByMargin: number | null
}

/** Pours as many panels as asked for and counts what is claimed of them. */
export function tally(scenario: Scenario, panels: number, seed: number): Tally {
  const random = seededRandom(seed)
  const truth = trueMeans(scenario)
  const { margin } = scenario
  let [claimed, wrong, held, wrongByMargin] = [0, 0, 0, 0]
  for (let panel = 0; panel < panels; panel += 1) {
    const claims = claimsOf(pour(scenario, random), scenario)
    if (claims.some(({ claim }) => claim === 'too few tasters')) continue
    const differences = claims.map(({ a, b }) => (truth.get(a) ?? NaN) - (truth.get(b) ?? NaN))
    claimed += 1
    if (claims.some(({ claim }, i) => isFalse(claim, differences[i] ?? NaN))) wrong += 1
    if (claims.every(({ low, high }, i) => low === null || holds(low, high ?? NaN, differences[i] ?? NaN))) held += 1
    if (margin !== undefined && claims.some((one, i) => !isTrueByMargin(one, differences[i] ?? NaN, margin)))
      wrongByMargin += 1
  }
  return {
    name: scenario.name,
    panels,
    claimed,
    falseClaims: wrong / claimed,
    coverage: held / claimed,
    falseByMargin: margin === undefined ? null : wrongByMargin / claimed,
  }
}

/** As the page reads them. */
function claimsOf(rows: readonly AcceptanceRow[], scenario: Scenario): readonly FoundClaim[] {
  const plan: PlanOptions = scenario.margin === undefined ? {} : { control: label(scenario.cups - 1) }
  const rules = {
    level: LEVEL,
    margin: scenario.margin ?? null,
    marginLevel: scenario.margin === undefined ? LEVEL : MARGIN_LEVEL,
    step: scenario.rounded ? 1 : 0,
  }
  const reading = likingReading(rows, { replicated: scenario.duplicate ?? false })
  return foundClaims(reading, claimPlan([...new Set(rows.map(({ cup }) => cup))], plan), rules)
}

const label = (cup: number) => `trial ${cup + 1}`

const isFalse = (claim: FoundClaim['claim'], difference: number) =>
  (claim === 'a better' && difference <= 0) || (claim === 'b better' && difference >= 0)

const holds = (low: number, high: number, difference: number) => low <= difference && difference <= high

/** The border belongs to the claim's untruth: "not worse" promises that it is worse by less than the margin. */
function isTrueByMargin({ byMargin }: FoundClaim, difference: number, margin: number): boolean {
  const inside = 1e-12
  const said = byMargin ?? 'cannot tell'
  if (said === 'cannot tell') return true
  const aNotWorse = difference > -margin + inside
  const bNotWorse = difference < margin - inside
  const holdsOf = {
    'a better by the margin': difference > margin,
    'b better by the margin': difference < -margin,
    'as good': aNotWorse && bNotWorse,
    'a not worse': aNotWorse,
    'b not worse': bNotWorse,
  } satisfies Record<Exclude<ReturnType<typeof byMarginOf>, 'cannot tell'>, boolean>
  return holdsOf[said]
}

/** What each trial is scored on average, after rounding and cutting: each value by its chance. */
function trueMeans(scenario: Scenario): ReadonlyMap<string, number> {
  const { cups, mean = 5, rounded = false, skewed = false } = scenario
  return new Map(
    Array.from({ length: cups }, (_, cup) => {
      const middle = mean + (scenario.shifts?.[cup] ?? 0)
      // trials that lean to one side, and places that lose points, are alike for all trials here
      if (!rounded || skewed || scenario.drift) return [label(cup), middle]
      const spread = Math.hypot(TASTER_SD, scenario.spreads?.[cup] ?? REST_SD)
      const side = cup === 0 ? (scenario.divided ?? 0) : 0
      const expected = (expectedScore(middle + side, spread) + expectedScore(middle - side, spread)) / 2
      return [label(cup), expected]
    }),
  )
}

/** E = 9 − Σ P(score below the border between two values), for a normal score rounded and cut to 1 … 9. */
function expectedScore(mean: number, sd: number): number {
  return [1, 2, 3, 4, 5, 6, 7, 8].reduce((sum, value) => sum - normalLower((value + 0.5 - mean) / sd), 9)
}

function pour(scenario: Scenario, random: SeededRandom): AcceptanceRow[] {
  const { tasters, cups, duplicate = false, divided = 0, drift = 0, leave = 0, mean = 5 } = scenario
  const normal = () => normalQuantile(random.unit() + 2 ** -54)
  const rest = () => (scenario.skewed ? -Math.log(1 - random.unit()) - 1 : normal())
  const { orders } = servingOrders({
    cups,
    tasters,
    seed: random.below(2 ** 31),
    ...(scenario.perTaster === undefined ? {} : { perTaster: scenario.perTaster }),
    ...(duplicate ? { duplicate: 1 } : {}),
  })
  return orders.flatMap((order) => {
    const own = TASTER_SD * normal()
    const side = random.below(2) === 0 ? divided : -divided
    const stays = random.unit() >= leave
    return order.flatMap((served, place) => {
      // the copy stands for trial 1 under the number after the last
      const cup = served > cups ? 0 : served - 1
      const lost = order.length > 1 ? (drift * place) / (order.length - 1) : 0
      const level = mean + (scenario.shifts?.[cup] ?? 0) + (cup === 0 ? side : 0) - lost
      const liking = level + own + (scenario.spreads?.[cup] ?? REST_SD) * rest()
      if (!stays && place >= 2) return []
      const score = scenario.rounded ? Math.min(9, Math.max(1, Math.round(liking))) : liking
      const taster = `taster ${orders.indexOf(order) + 1}`
      return [{ taster, cup: label(cup), score, ...(duplicate ? { replicate: String(served > cups ? 2 : 1) } : {}) }]
    })
  })
}
