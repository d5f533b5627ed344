import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { normalLower } from '../distribution/normal'
import type { AcceptanceRow } from '../liking/acceptance-row'
import { claimPlan, type ClaimPlan, type PlanKind } from '../liking/claim-plan'
import { foundClaims, judge, type ClaimRules, type Judgement } from '../liking/claims'
import { likingReading } from '../liking/liking-reading'
import { UnusableReadings } from '../outcome'
import { seededRandom, type SeededRandom } from '../random'
import { HIGHEST, LOWEST, MIDDLE, normals, onScale } from './played-scores'

/** A panel as it is planned, and what is true of its cups. */
export interface RehearsedPlan {
  /** K, 2 to 15 */
  readonly cups: number
  readonly tasters: number
  /** standard deviation of one score about its taster's own mean, points */
  readonly sd: number
  /** how much better cup 1 is than every other; may be below zero */
  readonly difference: number
  /** standard deviation between tasters (1) */
  readonly tasterSd?: number | undefined
  /** who gets which cups, by numbers from 1; all cups for everybody where left out */
  readonly trays?: readonly (readonly number[])[] | undefined
  /** against: cup 2 is the yardstick; pair: cups 1 and 2 */
  readonly plan: PlanKind
  readonly margin?: number | undefined
  readonly level: number
  readonly marginLevel?: number | undefined
  /** chance that a cup gets no score (0) */
  readonly absent?: number | undefined
  /** half the tasters like the last cup so much more, the rest so much less (0) */
  readonly divide?: number | undefined
  /** scores lie on steps of this size and are cut to 1 … 9; 0: neither (1) */
  readonly step?: number | undefined
  readonly seed: number
}

/** Shares of the panels rehearsed. */
export interface Rehearsed {
  readonly panels: number
  /** cup 1 claimed better than cup 2; no claim; cup 2 claimed better; too few tasters. These four add up to 1 */
  readonly found: number
  readonly cannotTell: number
  readonly wrong: number
  readonly tooFew: number
  /** cup 1 alone stands unbeaten; null unless every pair is planned */
  readonly namedBest: number | null
  /** cup 1 claimed better than every other cup; null unless every pair is planned */
  readonly aboveAll: number | null
  /** some other cup claimed better than cup 1 */
  readonly beaten: number
  /** any claim, of better or by the margin, that is not true */
  readonly anyFalse: number
  /** all joint intervals hold */
  readonly coverage: number
  /** cup 1 beside cup 2 by the margin; null without one */
  readonly asGood: number | null
  readonly notWorse: number | null
  /** simulation error of `found` */
  readonly se: number
}

/** Any whole number that turns one seed into another. */
const GAPS = 0x2545f491

/**
 * Plays a planned panel again and again through the code that will read the real one.
 *
 *     score = 6 + taster + cup + rest, rounded to the step and cut to 1 … 9;  taster ~ N(0, T²), rest ~ N(0, S²)
 *
 * What is true is the expected difference of the scores after rounding and cutting. Where nobody misses a cup the claims' error is
 * that of the tasters' own differences, and is computed so.
 *
 * @param panels  how many, at least 1
 * @throws RangeError  a number outside its range
 *
 * Checked  test/reference/rehearsal.test.ts (R's power, and R's own panels)
 * Cost     proportional to panels × scores; see npm run bench
 */
export function rehearse(plan: RehearsedPlan, panels: number): Rehearsed {
  check(plan)
  demand(Number.isInteger(panels) && panels >= 1, `the number of panels must be a whole number from 1, got ${panels}`)
  const { cups, tasters, level, margin = null, marginLevel = level, step = 1, absent = 0 } = plan
  const rules: ClaimRules = { level, margin, marginLevel, step }
  const labels = Array.from({ length: cups }, (_, cup) => String(cup + 1))
  const planned = claimPlan(labels, plan.plan === 'pair' ? { plan: 'pair', pair: ['1', '2'] } : withControl(plan.plan))
  const truth = trueMeans(plan)
  const normal = normals(seededRandom(plan.seed))
  // a sequence of its own: what is missing changes no score
  const gaps = seededRandom(plan.seed ^ GAPS)
  const complete = absent === 0 && (!plan.trays || plan.trays.every((tray) => new Set(tray).size === cups))
  const count = {
    found: 0,
    cannotTell: 0,
    wrong: 0,
    tooFew: 0,
    best: 0,
    aboveAll: 0,
    beaten: 0,
    anyFalse: 0,
    held: 0,
    asGood: 0,
    notWorse: 0,
  }

  function playOne(): void {
    const scores = pour(plan, normal, gaps)
    const said = complete
      ? completeClaims(scores, cups, tasters, planned, rules)
      : modelClaims(scores, cups, labels, planned, rules)
    tallyClaims(said)
  }

  function tallyClaims(said: readonly SaidPair[]): void {
    const one = said.find(({ a, b }) => a === 0 && b === 1)
    if (!one || one.claim === 'too few tasters') count.tooFew++
    else if (one.claim === 'a better') count.found++
    else if (one.claim === 'b better') count.wrong++
    else count.cannotTell++
    if (one?.byMargin === 'as good') count.asGood++
    if (one && ['as good', 'a not worse', 'a better by the margin'].includes(one.byMargin ?? '')) count.notWorse++
    const beaten = new Set(
      said.flatMap(({ a, b, claim }) => (claim === 'a better' ? [b] : claim === 'b better' ? [a] : [])),
    )
    if (beaten.size === cups - 1 && !beaten.has(0)) count.best++
    if (beaten.has(0)) count.beaten++
    if (said.filter(({ a, claim }) => a === 0 && claim === 'a better').length === cups - 1) count.aboveAll++
    if (said.some((pair) => isFalse(pair, trueDifference(pair)))) count.anyFalse++
    if (said.every((pair) => holds(pair, trueDifference(pair)))) count.held++
  }

  const trueDifference = ({ a, b }: SaidPair) => (truth[a] ?? lost()) - (truth[b] ?? lost())
  const isFalse = ({ claim, byMargin }: SaidPair, difference: number) =>
    (claim === 'a better' && difference <= 0) ||
    (claim === 'b better' && difference >= 0) ||
    (margin !== null && byMargin !== null && !trueByMargin(byMargin, difference, margin))

  for (let panel = 0; panel < panels; panel++) playOne()
  const found = count.found / panels
  return {
    panels,
    found,
    cannotTell: count.cannotTell / panels,
    wrong: count.wrong / panels,
    tooFew: count.tooFew / panels,
    namedBest: plan.plan === 'all' ? count.best / panels : null,
    aboveAll: plan.plan === 'all' ? count.aboveAll / panels : null,
    beaten: count.beaten / panels,
    anyFalse: count.anyFalse / panels,
    coverage: count.held / panels,
    asGood: margin === null ? null : count.asGood / panels,
    notWorse: margin === null ? null : count.notWorse / panels,
    se: Math.sqrt((found * (1 - found)) / panels),
  }
}

/** A pair by cups counted from 0. */
interface SaidPair extends Judgement {
  readonly a: number
  readonly b: number
}

const withControl = (plan: PlanKind) => (plan === 'against' ? { plan, control: '2' } : { plan })

function check({
  cups,
  tasters,
  sd,
  difference,
  level,
  marginLevel,
  margin,
  absent = 0,
  step = 1,
  tasterSd = 1,
  divide = 0,
  trays,
}: RehearsedPlan) {
  demand(Number.isInteger(cups) && cups >= 2 && cups <= 15, `the number of cups must be 2 to 15, got ${cups}`)
  demand(
    Number.isInteger(tasters) && tasters >= 1 && tasters <= 1000,
    `the number of tasters must be 1 to 1000, got ${tasters}`,
  )
  demand(sd > 0 && Number.isFinite(sd), `the standard deviation must be above 0, got ${sd}`)
  demand(tasterSd >= 0 && Number.isFinite(tasterSd), `the spread of tasters must be 0 or above, got ${tasterSd}`)
  demand(Number.isFinite(difference) && Number.isFinite(divide), 'differences must be numbers')
  demand(level > 0 && level < 1, `a level must lie between 0 and 1, got ${level}`)
  demand(
    marginLevel === undefined || (marginLevel > 0 && marginLevel < 1),
    `a level must lie between 0 and 1, got ${marginLevel}`,
  )
  demand(margin === undefined || margin > 0, `a margin must be above zero, got ${margin}`)
  demand(absent >= 0 && absent < 1, `the chance of a missing score must be from 0 to below 1, got ${absent}`)
  demand(step >= 0 && Number.isFinite(step), `a step must be 0 or above, got ${step}`)
  demand(
    !trays || trays.length === tasters,
    `there must be a tray for each of the ${tasters} tasters, got ${trays?.length}`,
  )
}

const effectOf = ({ cups, difference, divide = 0 }: RehearsedPlan, cup: number, isUp: boolean) =>
  (cup === 0 ? difference : 0) + (cup === cups - 1 ? (isUp ? divide : -divide) : 0)

/** Scores of one panel, taster by taster, cup by cup; NaN where there is none. */
function pour(plan: RehearsedPlan, normal: () => number, gaps: SeededRandom): Float64Array {
  const { cups, tasters, sd, tasterSd = 1, absent = 0, step = 1, trays } = plan
  const scores = new Float64Array(cups * tasters).fill(NaN)
  for (let taster = 0; taster < tasters; taster++) {
    const own = MIDDLE + tasterSd * normal()
    const isUp = taster % 2 === 0
    for (let cup = 0; cup < cups; cup++) {
      const score = own + effectOf(plan, cup, isUp) + sd * normal()
      const isServed = !trays || trays[taster]?.includes(cup + 1) === true
      if (!isServed || (absent > 0 && gaps.unit() < absent)) continue
      scores[taster * cups + cup] = step > 0 ? onScale(score, step) : score
    }
  }
  return scores
}

/** What each cup is scored on average, after rounding and cutting. */
function trueMeans(plan: RehearsedPlan): readonly number[] {
  const { cups, tasters, sd, tasterSd = 1, step = 1 } = plan
  const ups = Math.ceil(tasters / 2) / tasters
  const spread = Math.hypot(sd, tasterSd)
  return Array.from({ length: cups }, (_, cup) => {
    const mean = (isUp: boolean) => expectedScore(MIDDLE + effectOf(plan, cup, isUp), spread, step)
    return ups * mean(true) + (1 - ups) * mean(false)
  })
}

/** E of a normal score after rounding to the step and cutting: each step's value by its chance. */
function expectedScore(mean: number, sd: number, step: number): number {
  if (step === 0) return mean
  const steps = Math.floor((HIGHEST - LOWEST) / step + 1e-9)
  let expected = HIGHEST
  // E = highest − Σ P(score below the border between two values) · their distance
  for (let at = 0; at < steps; at++) {
    const value = LOWEST + step * at
    const next = at === steps - 1 ? HIGHEST : value + step
    expected -= (next - value) * normalLower((value + step / 2 - mean) / sd)
  }
  return expected
}

/** Everybody scored every cup: the error by tasters is that of their own differences. */
function completeClaims(
  scores: Float64Array,
  cups: number,
  n: number,
  { pairs }: ClaimPlan,
  rules: ClaimRules,
): SaidPair[] {
  const floor = rules.step / Math.sqrt(6 * n)
  return pairs.map(([one, other]) => {
    const [a, b] = [Number(one) - 1, Number(other) - 1]
    let sum = 0
    for (let at = 0; at < n; at++) sum += (scores[at * cups + a] ?? lost()) - (scores[at * cups + b] ?? lost())
    const difference = sum / n
    let squares = 0
    for (let at = 0; at < n; at++) {
      squares += ((scores[at * cups + a] ?? lost()) - (scores[at * cups + b] ?? lost()) - difference) ** 2
    }
    const own = n < 2 ? null : Math.sqrt(squares / (n - 1) / n)
    const se = own === null ? null : Math.max(own, floor)
    return { a, b, ...judge({ difference, se, df: n < 2 ? null : n - 1 }, n, pairs.length, rules) }
  })
}

/** The analysis itself. A panel that it cannot read says nothing of any pair. */
function modelClaims(
  scores: Float64Array,
  cups: number,
  labels: readonly string[],
  planned: ClaimPlan,
  rules: ClaimRules,
): SaidPair[] {
  const wanted = planned.plan === 'pair' ? [0, 1] : labels.map((_, cup) => cup)
  const rows: AcceptanceRow[] = []
  for (let at = 0; at < scores.length; at++) {
    const score = scores[at] ?? NaN
    const cup = at % cups
    if (!Number.isNaN(score) && wanted.includes(cup)) {
      rows.push({ taster: String(Math.floor(at / cups)), cup: labels[cup] ?? '', score })
    }
  }
  try {
    return foundClaims(likingReading(rows, {}), planned, rules).map((claim) => ({
      ...claim,
      a: Number(claim.a) - 1,
      b: Number(claim.b) - 1,
    }))
  } catch (error) {
    if (error instanceof UnusableReadings) return []
    throw error
  }
}

const holds = ({ low, high }: SaidPair, difference: number) =>
  low === null || high === null || (low <= difference && difference <= high)

function trueByMargin(word: NonNullable<Judgement['byMargin']>, difference: number, margin: number): boolean {
  switch (word) {
    case 'a better by the margin':
      return difference > margin
    case 'b better by the margin':
      return difference < -margin
    case 'as good':
      return Math.abs(difference) < margin
    case 'a not worse':
      return difference > -margin
    case 'b not worse':
      return difference < margin
    case 'cannot tell':
      return true
  }
}
