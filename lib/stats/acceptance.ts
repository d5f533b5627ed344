import type { AcceptanceAnswer, CupMeans, CupPair, MarginPair } from './acceptance-answer'
import { acceptanceMethod, acceptanceNotes, modelFormula } from './acceptance-words'
import { icc } from './agreement'
import { checkLevel } from './check-level'
import { checkConnectedCups } from './connected-cups'
import { controlComparison } from './control-comparison'
import { cupLetters } from './cup-letters'
import { cupMeans } from './cup-means'
import { cupPairs } from './cup-pairs'
import { againstMargin } from './equivalence'
import type { DegreesMethod, FTest } from './fixed-effects'
import { friedman } from './friedman'
import { likingModel, type LikingModel, type Repeats } from './liking-model'
import { cupDifference, factorContrasts } from './marginal-mean'
import { orderEffects } from './order-effect'
import { UnusableReadings } from './outcome'
import { scoreTable, type AcceptanceRow } from './score-table'
import { completeRows, tasterMeans, type TasterMeans } from './taster-means'
import { isAtMost } from './verdict'

export type { AcceptanceAnswer } from './acceptance-answer'
export type { AcceptanceRow } from './score-table'

export interface AcceptanceOptions {
  /** coverage of the intervals, and one minus the risk of the tests; 0 < level < 1 */
  readonly level: number
  /** the cup all others are compared with */
  readonly control?: string
  /** the difference that matters, above zero, on the scale of the scores */
  readonly margin?: number
  readonly df?: DegreesMethod
  /** the readings carry a replicate column: any repeat then has its own variance */
  readonly replicated?: boolean
  /** sessions are a factor of the model */
  readonly session?: boolean
}

/**
 * Which cups are liked better than which, by how much, and how sure is that?
 *
 *     score ~ cup [+ session] + (1 | taster) [+ (1 | taster:cup)] by REML; every part of the answer names its method
 *
 * @param rows  one score each, any order; null scores are counted as missing
 * @throws UnusableReadings  no scores, cups that nobody connects, an unknown control, a margin that is not above zero
 * @throws RangeError        a level outside (0, 1), a score that is not finite
 *
 * Source   the parts' own; ISO 11136:2014 for the layout of a hedonic panel.
 * Checked  test/reference/acceptance-r-cases.test.ts, test/reference/acceptance-open-panels.test.ts
 * Limits   scores are taken as numbers with equal steps; tasters as a random sample; F of an unbalanced panel depends a
 *          little, in its denominator degrees of freedom after Satterthwaite, on which cup comes first.
 */
export function acceptance(rows: readonly AcceptanceRow[], options: AcceptanceOptions): AcceptanceAnswer {
  const { level, margin, df: method = 'satterthwaite' } = options
  checkLevel(level)
  if (margin !== undefined && !(margin > 0 && Number.isFinite(margin))) {
    throw new UnusableReadings(`a margin must be above zero, got ${margin}`)
  }
  const table = scoreTable(rows, options.session ?? false)
  const { cups } = table
  const control = options.control === undefined ? null : cups.indexOf(options.control)
  if (control === -1)
    throw new UnusableReadings(`no scored cup is called ${options.control}: there are ${cups.join(', ')}`)
  checkConnectedCups(table)

  const means = tasterMeans(table)
  const repeats = repeatsOf(means, options.replicated ?? false)
  const alone = cups.length === 1 || means.tasters === 1
  const model = alone ? null : likingModel(table, repeats, method, { position: false, carryOver: false })
  const cupRows = cupMeans(cups, model, means, table, level)
  const plain = (a: number, b: number) => (cupRows[a]?.estimate ?? 0) - (cupRows[b]?.estimate ?? 0)
  const pairs = cupPairs(cups, model, means, plain, table.grain, level)
  const letters = lettersOf(cupRows, pairs, means.complete, level)
  const order = alone ? { position: null, carryOver: null, notes: [] } : orderEffects(table, repeats, method)
  const complete = completeRows(means)
  const ranks = complete.length > 1 && cups.length > 1 ? friedman(complete) : null
  const contrastOf = (cup: number) => cupDifference((model as LikingModel).design, cup, control ?? 0)

  return {
    verb: 'acceptance',
    level,
    counts: { tasters: means.tasters, cups: cups.length, scores: table.score.length, missing: table.missing },
    method: acceptanceMethod(method, means.complete, control !== null, level),
    notes: [
      ...acceptanceNotes(table, means, repeats, model, pairs, margin),
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
    overall: overallTest(model, cups.length),
    cups: cupRows,
    pairs,
    top: cups.filter((_, cup) => letters[cup]?.includes('a')),
    groups: Object.fromEntries(cups.map((cup, i) => [cup, letters[i] ?? ''])),
    control:
      control === null
        ? null
        : {
            cup: cups[control] ?? '',
            pairs: controlComparison(cups, control, pairs, model?.effects ?? null, contrastOf, level),
          },
    margin: margin === undefined ? null : { margin, pairs: pairs.map((pair) => marginPair(pair, margin, level)) },
    friedman:
      ranks && ranks.chiSquared !== null
        ? { chiSquared: ranks.chiSquared, df: ranks.df, p: ranks.p, tasters: complete.length }
        : null,
    agreement: ranks && agreementOf(complete, ranks.kendallW, level),
    position: order.position,
    carryOver: order.carryOver,
  }
}

function unboundedNotes(cups: readonly CupMeans[]): string[] {
  const unbounded = cups.filter(({ df, interval }) => df !== null && interval === null).map(({ cup }) => cup)
  return unbounded.length === 0
    ? []
    : [`no interval for the marginal mean of ${unbounded.join(', ')}: too few degrees of freedom to bound it`]
}

/** The contract's rule: a replicate column, or repeats in at least six pairs, makes repeats a level of their own. */
function repeatsOf({ repeated }: TasterMeans, replicated: boolean): Repeats {
  if (repeated === 0) return 'none'
  return replicated || repeated >= 6 ? 'own variance' : 'averaged'
}

function overallTest(model: LikingModel | null, cups: number): FTest {
  return (
    model?.effects?.test(factorContrasts(model.design, model.gram, 'cup')) ?? {
      F: null,
      df1: cups - 1,
      df2: null,
      p: null,
    }
  )
}

function lettersOf(cups: readonly CupMeans[], pairs: readonly CupPair[], complete: boolean, level: number) {
  const names = cups.map(({ cup }) => cup)
  const apart = new Set(
    pairs
      .filter(({ verdict }) => verdict.pHolm !== null && isAtMost(verdict.pHolm, 1 - level))
      .map(({ a, b }) => names.indexOf(a) * names.length + names.indexOf(b)),
  )
  return cupLetters(
    cups.map(({ mean, estimate }) => (complete ? mean : estimate)),
    (i, j) => apart.has(Math.min(i, j) * names.length + Math.max(i, j)),
  )
}

function marginPair(pair: CupPair, margin: number, level: number): MarginPair {
  const { basis } = pair.verdict
  const { difference, se, df, p } = basis === 'paired' ? pair.paired : pair
  return againstMargin(pair.a, pair.b, { basis, difference, se, df, p }, margin, level)
}

function agreementOf(complete: readonly (readonly number[])[], kendallW: number | null, level: number) {
  const coefficients = icc(complete, level)
  const found = (type: string) => coefficients.find((each) => each.type === type)?.estimate ?? null
  return { kendallW, icc: { single: found('ICC(3,1)'), average: found('ICC(3,k)') } }
}
