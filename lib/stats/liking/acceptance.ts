import type { AcceptanceAnswer, CupMeans, RobustCupMeans } from './acceptance-answer'
import { acceptanceMethod, claimNotes, modelFormula, pairNotes, readingNotes, unboundedNotes } from './acceptance-words'
import { consistency } from './agreement'
import { checkLevel } from '../check-level'
import { claimPlan, type ClaimPlan, type PlanOptions } from './claim-plan'
import { foundClaims, scoreStep, type Claim, type ClaimRules, type FoundClaim } from './claims'
import { around, studentReach } from '../model/contrast'
import { controlComparison } from './control-comparison'
import { cupLetters } from './cup-letters'
import { cupMeans } from './cup-means'
import { cupPairs } from './cup-pairs'
import type { DegreesMethod } from '../model/fixed-effects'
import { friedman } from '../rank/friedman'
import { likingReading, type LikingReading } from './liking-reading'
import { cupDifference, marginalMean } from './marginal-mean'
import { orderEffects } from './order-effect'
import { overallTest } from './overall-test'
import { UnusableReadings } from '../outcome'
import type { AcceptanceRow } from './acceptance-row'
import { completeRows } from './taster-means'

export type { AcceptanceAnswer } from './acceptance-answer'
export type { AcceptanceRow } from './acceptance-row'

export interface AcceptanceOptions extends PlanOptions {
  /** all claims of the plan hold together with about this probability; 0 < level < 1 */
  readonly level: number
  /** the difference that matters, above zero, on the scale of the scores */
  readonly margin?: number
  /** of the joint intervals that the margin is read off; the level where not given */
  readonly marginLevel?: number
  /** degrees of freedom of the model's own tests */
  readonly df?: DegreesMethod
  /** the readings carry a replicate column: any repeat then has its own variance */
  readonly replicated?: boolean
  /** sessions are a factor of the model */
  readonly session?: boolean
  /** the scores' step; 1 where every score is a whole number, otherwise 0, if not given */
  readonly step?: number
  /** makes every claim again with skipped cups at this score */
  readonly skipsCountAs?: number
}

/**
 * Which cups are liked better than which, by how much, and how sure is that?
 *
 *     score ~ cup [+ session] + (1 | taster) [+ (1 | taster:cup)] by REML; claims are read off joint intervals whose errors
 *     believe only in the tasters; every part of the answer names its method
 *
 * @param rows  one score each, any order; null scores are counted as missing
 * @throws UnusableReadings  no scores, cups that nobody connects, a control or pair that is not there, a margin that is
 *                           not above zero
 * @throws RangeError        a level outside (0, 1), a score that is not finite, a step below zero
 *
 * Source   the parts' own; ISO 11136:2014 for the layout of a hedonic panel.
 * Checked  test/reference/claims-r-cases.test.ts, test/reference/acceptance-r-cases.test.ts, test/reference/acceptance-open-panels.test.ts
 * Limits   scores are taken as numbers with equal steps; tasters as a random sample; F of an unbalanced panel depends a
 *          little, in its denominator degrees of freedom after Satterthwaite, on which cup comes first.
 */
export function acceptance(rows: readonly AcceptanceRow[], options: AcceptanceOptions): AcceptanceAnswer {
  const { level, df: method = 'satterthwaite' } = options
  const rules = rulesOf(rows, options)
  const plan = claimPlan([...new Set(rows.map(({ cup }) => cup))], options)
  const planned = plan.plan === 'pair' ? rows.filter(({ cup }) => plan.pairs[0]?.includes(cup)) : rows
  const reading = likingReading(planned, options)
  const { table, means, repeats, model } = reading
  const { cups } = table

  const found = foundClaims(reading, plan, rules)
  const claims = withSkips(found, planned, reading, plan, rules, options)
  const cupRows = robustMeans(reading, cupMeans(cups, model, means, table, level), level)
  const pairs = cupPairs(reading, level)
  const overall = overallTest(model, cups.length)
  const control = options.control === undefined ? -1 : cups.indexOf(options.control)
  const order = model ? orderEffects(table, repeats, method) : { position: null, carryOver: null, notes: [] }
  const complete = completeRows(means)
  const ranks = complete.length > 1 && cups.length > 1 ? friedman(complete) : null

  return {
    verb: 'acceptance',
    level,
    counts: { tasters: means.tasters, cups: cups.length, scores: table.score.length, missing: table.missing },
    method: acceptanceMethod(method, control >= 0, plan.pairs.length, rules),
    notes: [
      ...readingNotes(reading, pairs),
      ...claimNotes(reading, found, claims, rules, options.skipsCountAs ?? null),
      ...pairNotes(reading, pairs, overall.F),
      ...unboundedNotes(cupRows),
      ...order.notes,
    ],
    model: {
      formula: modelFormula(table, repeats),
      method: 'REML',
      variance: model?.variance ?? { taster: null, tasterByCup: null, residual: null },
      remlCriterion: model?.remlCriterion ?? null,
      singular: model?.singular ?? false,
    },
    overall,
    cups: cupRows,
    plan: { plan: plan.plan, pairs: plan.pairs.length, level },
    claims,
    pairs,
    top: plan.plan === 'all' ? standing(cupRows, claims) : null,
    groups: plan.plan === 'all' ? lettersOf(cupRows, claims) : null,
    control:
      control < 0
        ? null
        : {
            cup: cups[control] ?? '',
            pairs: controlComparison(
              cups,
              control,
              pairs,
              model?.effects ?? null,
              (cup) => (model ? cupDifference(model.design, cup, control) : new Float64Array(0)),
              level,
            ),
          },
    friedman:
      ranks && ranks.chiSquared !== null
        ? { chiSquared: ranks.chiSquared, df: ranks.df, p: ranks.p, tasters: complete.length }
        : null,
    agreement: ranks && { kendallW: ranks.kendallW, icc: consistency(complete) },
    position: order.position,
    carryOver: order.carryOver,
  }
}

function rulesOf(rows: readonly AcceptanceRow[], options: AcceptanceOptions): ClaimRules {
  const { level, margin, marginLevel = level, step = scoreStep(rows.map(({ score }) => score)) } = options
  checkLevel(level)
  checkLevel(marginLevel)
  if (margin !== undefined && !(margin > 0 && Number.isFinite(margin))) {
    throw new UnusableReadings(`a margin must be above zero, got ${margin}`)
  }
  if (!(step >= 0 && Number.isFinite(step))) throw new RangeError(`a step must be 0 or above, got ${step}`)
  return { level, margin: margin ?? null, marginLevel, step }
}

/** The claims with what becomes of each when everything skipped counts as the lowest score. */
function withSkips(
  found: readonly FoundClaim[],
  rows: readonly AcceptanceRow[],
  reading: LikingReading,
  plan: ClaimPlan,
  rules: ClaimRules,
  options: AcceptanceOptions,
): readonly Claim[] {
  const { skipsCountAs: lowest } = options
  if (lowest !== undefined && !Number.isFinite(lowest)) {
    throw new RangeError(`a lowest score must be a finite number, got ${lowest}`)
  }
  const skipped = lowest !== undefined && rows.some((row) => row.skipped)
  const again =
    lowest === undefined || found.length === 0
      ? null
      : foundClaims(
          skipped
            ? likingReading(
                rows.map((row) => (row.skipped ? { ...row, score: lowest } : row)),
                options,
              )
            : reading,
          plan,
          rules,
        )
  return found.map(({ floored: _, ...claim }) => {
    const other = again?.find(({ a, b }) => a === claim.a && b === claim.b)
    return {
      ...claim,
      ifSkipsLowest: other ? { low: other.low, high: other.high, claim: other.claim, byMargin: other.byMargin } : null,
    }
  })
}

function robustMeans(
  { model, errors, table }: LikingReading,
  cups: readonly CupMeans[],
  level: number,
): readonly RobustCupMeans[] {
  return cups.map((cup, place) => {
    const error = model && errors ? errors(marginalMean(model.design, 'cup', place)) : null
    if (!error) return { ...cup, robust: { se: null, df: null, interval: null } }
    const se = error.se > 64 * table.grain ? error.se : 0
    const interval = se > 0 && error.df !== null ? around(cup.estimate, se, studentReach(level, error.df)) : null
    return { ...cup, robust: { se, df: error.df, interval: interval?.every(Number.isFinite) ? interval : null } }
  })
}

/** The cups that no cup is claimed better than, highest estimate first. */
function standing(cups: readonly CupMeans[], claims: readonly Claim[]): readonly string[] {
  const beaten = new Set(
    claims.flatMap(({ a, b, claim }) => (claim === 'a better' ? [b] : claim === 'b better' ? [a] : [])),
  )
  return cups
    .filter(({ cup }) => !beaten.has(cup))
    .toSorted((one, two) => two.estimate - one.estimate)
    .map(({ cup }) => cup)
}

function lettersOf(cups: readonly CupMeans[], claims: readonly Claim[]): Readonly<Record<string, string>> {
  const names = cups.map(({ cup }) => cup)
  const apart = new Set(
    claims
      .filter(({ claim }) => claim === 'a better' || claim === 'b better')
      .map(({ a, b }) => names.indexOf(a) * names.length + names.indexOf(b)),
  )
  const letters = cupLetters(
    cups.map(({ estimate }) => estimate),
    (i, j) => apart.has(Math.min(i, j) * names.length + Math.max(i, j)),
  )
  return Object.fromEntries(names.map((cup, i) => [cup, letters[i] ?? '']))
}
