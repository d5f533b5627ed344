import type { CupMeans } from './acceptance-answer'
import { firstMethod, firstNotes, modelFormula, unboundedNotes } from './acceptance-words'
import { consistency } from './agreement'
import type { Basis, FirstAnswer, FirstControlPair, FirstPair, MarginPair } from './first-answer'
import { checkLevel } from '../check-level'
import { cupLetters } from './cup-letters'
import { cupMeans } from './cup-means'
import { modelPairs } from './cup-pairs'
import { againstMargin } from './equivalence'
import type { DegreesMethod } from '../model/fixed-effects'
import { friedman } from '../rank/friedman'
import { likingReading, type LikingReading } from './liking-reading'
import { isAtMost } from '../multiplicity'
import { orderEffects } from './order-effect'
import { overallTest } from './overall-test'
import { UnusableReadings } from '../outcome'
import { pairedDifference } from './paired-difference'
import type { AcceptanceRow } from './acceptance-row'
import { completeRows, tasterDifferences } from './taster-means'
import { holmAmong, verdictSign } from './verdict'

export interface FirstOptions {
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
 * What does the first rule say, by which panels were decided before every claim was read off one joint interval?
 *
 * Verdicts: Holm over the tasters' own differences where every taster scored every cup, otherwise over the model's; with a
 * control over its comparisons only; a margin pair by pair. Kept for pages and panels that rest on it: see `acceptance`.
 *
 * @param rows  one score each, any order; null scores are counted as missing
 * @throws UnusableReadings  no scores, cups that nobody connects, an unknown control, a margin that is not above zero
 * @throws RangeError        a level outside (0, 1), a score that is not finite
 *
 * Source   Holm (1979), Scand. J. Stat. 6(2), 65–70; Schuirmann (1987) for the margin.
 * Checked  test/unit/stats/liking/first-verdict.test.ts
 * Limits   one missing score moves every verdict to the model's one spread: false alarms double where a cup divides its
 *          tasters, and a certain finding vanishes.
 */
export function firstVerdict(rows: readonly AcceptanceRow[], options: FirstOptions): FirstAnswer {
  const { level, margin, df: method = 'satterthwaite' } = options
  checkLevel(level)
  if (margin !== undefined && !(margin > 0 && Number.isFinite(margin))) {
    throw new UnusableReadings(`a margin must be above zero, got ${margin}`)
  }
  const reading = likingReading(rows, options)
  const { table, means, repeats, model } = reading
  const { cups } = table
  const control = options.control === undefined ? null : cups.indexOf(options.control)
  if (control === -1)
    throw new UnusableReadings(`no scored cup is called ${options.control}: there are ${cups.join(', ')}`)

  const cupRows = cupMeans(cups, model, means, table, level)
  const pairs = firstPairs(reading, level)
  const letters = lettersOf(cupRows, pairs, means.complete, level)
  const order = model ? orderEffects(table, repeats, method) : { position: null, carryOver: null, notes: [] }
  const complete = completeRows(means)
  const ranks = complete.length > 1 && cups.length > 1 ? friedman(complete) : null

  return {
    verb: 'acceptance',
    level,
    counts: { tasters: means.tasters, cups: cups.length, scores: table.score.length, missing: table.missing },
    method: firstMethod(method, means.complete, level),
    notes: [...firstNotes(table, means, repeats, model, pairs, margin), ...unboundedNotes(cupRows), ...order.notes],
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
      control === null ? null : { cup: cups[control] ?? '', pairs: againstControl(cups[control] ?? '', pairs, level) },
    margin: margin === undefined ? null : { margin, pairs: pairs.map((pair) => marginPair(pair, margin, level)) },
    friedman:
      ranks && ranks.chiSquared !== null
        ? { chiSquared: ranks.chiSquared, df: ranks.df, p: ranks.p, tasters: complete.length }
        : null,
    agreement: ranks && { kendallW: ranks.kendallW, icc: consistency(complete) },
    position: order.position,
    carryOver: order.carryOver,
  }
}

function firstPairs(reading: LikingReading, level: number): readonly FirstPair[] {
  const { table, means } = reading
  const { cups, grain } = table
  const basis: Basis = means.complete ? 'paired' : 'model'
  const plain = modelPairs(reading, level)
  const paired = plain.map(({ a, b }) => {
    return pairedDifference(tasterDifferences(means, cups.indexOf(a), cups.indexOf(b), grain), level, grain)
  })
  const modelHolm = holmAmong(plain.map(({ p }) => p))
  const pairedHolm = holmAmong(paired.map(({ p }) => p))
  return plain.map((pair, i) => {
    const own = paired[i] ?? pairedDifference(new Float64Array(0), level, grain)
    const pHolm = (basis === 'paired' ? pairedHolm : modelHolm)[i] ?? null
    const sign = verdictSign(basis === 'paired' ? own.difference : pair.difference, pHolm, level)
    return {
      ...pair,
      pHolm: modelHolm[i] ?? null,
      paired: { ...own, pHolm: pairedHolm[i] ?? null },
      verdict: { basis, pHolm, outcome: (['b better', 'cannot tell', 'a better'] as const)[1 + sign] ?? 'cannot tell' },
    }
  })
}

function againstControl(control: string, pairs: readonly FirstPair[], level: number): readonly FirstControlPair[] {
  const compared = pairs.filter(({ a, b }) => a === control || b === control)
  const judged = ({ verdict, paired, p }: FirstPair) => (verdict.basis === 'paired' ? paired.p : p)
  const adjusted = holmAmong(compared.map(judged))
  return compared.map((pair, i) => {
    const { se, df, t, p, verdict, paired } = pair
    const sign = pair.a === control ? -1 : 1
    const pHolm = adjusted[i] ?? null
    const told = sign * verdictSign(verdict.basis === 'paired' ? paired.difference : pair.difference, pHolm, level)
    return {
      cup: pair.a === control ? pair.b : pair.a,
      difference: unsigned(sign * pair.difference),
      se,
      df,
      t: t === null ? null : unsigned(sign * t),
      p,
      verdict: {
        basis: verdict.basis,
        pHolm,
        outcome: (['worse', 'cannot tell', 'better'] as const)[1 + told] ?? 'cannot tell',
      },
    }
  })
}

/** Zero without a sign. */
function unsigned(value: number): number {
  return value === 0 ? 0 : value
}

function lettersOf(cups: readonly CupMeans[], pairs: readonly FirstPair[], complete: boolean, level: number) {
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

function marginPair(pair: FirstPair, margin: number, level: number): MarginPair {
  const { basis } = pair.verdict
  const { difference, se, df, p } = basis === 'paired' ? pair.paired : pair
  return againstMargin(pair.a, pair.b, { basis, difference, se, df, p }, margin, level)
}
