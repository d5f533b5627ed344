import type { CupMeans, CupPair, ModelPair } from './acceptance-answer'
import type { Claim, ClaimRules, FoundClaim } from './claims'
import type { FirstPair } from './first-answer'
import type { DegreesMethod } from '../model/fixed-effects'
import type { LikingModel, Repeats } from './liking-model'
import type { LikingReading } from './liking-reading'
import type { ScoreTable } from './score-table'
import type { TasterMeans } from './taster-means'

/**
 * Which model was fitted, as a formula?
 *
 * @returns fixed terms first, then the random ones in brackets
 */
export function modelFormula(table: ScoreTable, repeats: Repeats): string {
  const session = table.sessions.length > 1 ? ' + session' : ''
  return `score ~ cup${session} + (1 | taster)${repeats === 'own variance' ? ' + (1 | taster:cup)' : ''}`
}

/**
 * By which tests and intervals did the answer come about, in words?
 *
 * @param pairs  how many comparisons the plan holds
 */
export function acceptanceMethod(df: DegreesMethod, control: boolean, pairs: number, rules: ClaimRules): string {
  const { level, margin, marginLevel } = rules
  return [
    'linear mixed model with random tasters by restricted maximum likelihood',
    `claims: joint intervals at ${percent(level)} over ${pairs} planned ${pairs === 1 ? 'pair' : 'pairs'} (Bonferroni), standard errors by taster (CR2, cluster-robust) with Satterthwaite degrees of freedom`,
    ...(margin === null ? [] : [`the margin read off the same intervals at ${percent(marginLevel)}`]),
    `beside, no claim rests on it: ${[
      `the model’s own tests (${degreesWord(df)} degrees of freedom, t intervals at ${percent(level)}), pairs with Holm and Tukey over all pairs`,
      ...(control ? ['comparisons with the control with Dunnett, correlation estimated'] : []),
      'tasters’ own differences by the paired t test, Holm',
      'share of preference by Wilson, signed rank by Pratt',
    ].join(', ')}`,
  ].join('; ')
}

/** The same for the first rule's verdicts. */
export function firstMethod(df: DegreesMethod, complete: boolean, level: number): string {
  return [
    'linear mixed model with random tasters by restricted maximum likelihood',
    `${degreesWord(df)} degrees of freedom, t intervals at ${percent(level)}`,
    complete
      ? 'verdicts on the tasters’ own differences (paired t, n − 1 degrees of freedom), Holm'
      : 'verdicts on the model, because not every taster scored every cup, Holm',
    'share of preference by Wilson, signed rank by Pratt',
  ].join('; ')
}

const percent = (level: number): string => `${Number((100 * level).toPrecision(10))} %`
const degreesWord = (df: DegreesMethod): string => (df === 'satterthwaite' ? 'Satterthwaite' : 'Kenward–Roger')

/**
 * What is missing, degenerate or treated specially in these readings?
 *
 * @returns one sentence each
 */
export function readingNotes({ table, means, repeats, model }: LikingReading, pairs: readonly ModelPair[]): string[] {
  const notes: string[] = []
  const { neverScored, withoutSession, cups } = table
  if (neverScored.length > 0) notes.push(`Never scored and left out: ${neverScored.join(', ')}.`)
  if (withoutSession > 0) notes.push(`${withoutSession} scores without a session are left out.`)
  if (repeats === 'averaged') {
    notes.push(`${means.repeated} taster–cup pairs were scored more than once; too few for a variance, so averaged.`)
  }
  if (means.tasters === 1) notes.push('One taster: means only, nothing can be tested.')
  if (cups.length === 1) notes.push('One cup: means only, there is nothing to compare it with.')
  notes.push(...modelNotes(model, pairs, table.grain))
  if (means.tasters > 1 && cups.length > 1) {
    const undecided = pairs.filter(({ preferA, preferB, tied }) => preferA + preferB === 0 && tied > 0)
    if (undecided.length > 0) notes.push(`Every taster scored both alike, so no share: ${named(undecided)}.`)
    if (model?.effects && pairs.some(({ df }) => df === null)) {
      notes.push('The likelihood is too flat for degrees of freedom: no tests from the model.')
    }
  }
  return notes
}

function modelNotes(model: LikingModel | null, pairs: readonly ModelPair[], grain: number): string[] {
  const notes: string[] = []
  if (model?.singular) notes.push('singular fit')
  if (model?.why === 'no residual') {
    notes.push(
      model.variance.taster === 0 && pairs.every(({ difference }) => Math.abs(difference) <= 16 * grain)
        ? 'All scores are equal: variances 0, nothing can be tested.'
        : 'Cups and tasters explain every score exactly: no residual, so the model tests nothing.',
    )
  }
  if (model?.why === null && model.remlCriterion === null) {
    notes.push('Repeats never differ: residual 0, the model is that of the means over repeats.')
  }
  if (model?.why === 'saturated')
    notes.push('No degrees of freedom are left for a residual, so the model tests nothing.')
  if (model?.why === 'aliased') notes.push('Cups and sessions cannot be told apart, so the model tests nothing.')
  return notes
}

/** What a reader of the tasters' own differences should know, and of the F of all cups together. */
export function pairNotes(
  { means, table }: LikingReading,
  pairs: readonly CupPair[],
  overall: number | null,
): string[] {
  if (means.tasters < 2 || table.cups.length < 2) return []
  const both = ({ preferA, preferB, tied }: ModelPair) => preferA + preferB + tied
  const few = pairs.filter((pair) => both(pair) < 2)
  const flat = pairs.filter((pair) => both(pair) > 1 && pair.paired === null)
  return [
    ...(few.length > 0 ? [`Fewer than two tasters scored both, so no paired test: ${named(few)}.`] : []),
    ...(flat.length > 0 ? [`All tasters differ by the same amount, so no paired test: ${named(flat)}.`] : []),
    ...(overall === null ? [] : ['overall: this F believes in one spread for all cups; the claims do not.']),
  ]
}

/**
 * What should be known of the claims beside their words?
 *
 * @param found    before skips were looked at
 * @param claims   the same with skips, in the same order
 */
export function claimNotes(
  { means, table }: LikingReading,
  found: readonly FoundClaim[],
  claims: readonly Claim[],
  rules: ClaimRules,
  lowest: number | null,
): string[] {
  if (found.length === 0) return []
  const few = claims.filter(({ claim }) => claim === 'too few tasters')
  const floored = found.filter((one) => one.floored)
  const without = found.filter(({ low, claim }) => low === null && claim === 'cannot tell')
  const fewNote =
    means.tasters < 6
      ? [`${means.tasters} tasters: fewer than 6 claim nothing; the intervals are still given.`]
      : few.length > 0
        ? [`Fewer than 4 degrees of freedom, too few tasters for a claim: ${named(few)}.`]
        : []
  return [
    ...fewNote,
    ...(floored.length > 0
      ? [
          `The tasters agree more closely than steps of ${rules.step} can show; the standard error is that of rounding: ${named(floored)}.`,
        ]
      : []),
    ...(without.length > 0 ? [`No standard error, so no interval and no claim: ${named(without)}.`] : []),
    ...claims.flatMap(({ a, b, claim, byMargin, ifSkipsLowest }) => {
      if (!ifSkipsLowest || lowest === null) return []
      const [again, marginAgain] = [ifSkipsLowest.claim, ifSkipsLowest.byMargin]
      return [
        ...(isSaid(claim) && again !== claim ? [lost(a, b, claim, again, lowest)] : []),
        ...(byMargin && isSaid(byMargin) && marginAgain !== byMargin
          ? [lost(a, b, byMargin, marginAgain, lowest)]
          : []),
      ]
    }),
    ...(table.neverScored.length > 0
      ? ['The plan counts cups that were never scored: the intervals stay as wide as planned.']
      : []),
  ]
}

const isSaid = (word: string): boolean => word !== 'cannot tell' && word !== 'too few tasters'
const lost = (a: string, b: string, word: string, again: string | null, lowest: number): string =>
  `a ${a}, b ${b}: “${word}” does not survive when skipped cups count as ${lowest} (then: ${again ?? 'nothing'}).`

/** Marginal means whose interval has no end. */
export function unboundedNotes(cups: readonly CupMeans[]): string[] {
  const unbounded = cups.filter(({ df, interval }) => df !== null && interval === null).map(({ cup }) => cup)
  return unbounded.length === 0
    ? []
    : [`no interval for the marginal mean of ${unbounded.join(', ')}: too few degrees of freedom to bound it`]
}

/** The notes of the first rule. */
export function firstNotes(
  table: ScoreTable,
  means: TasterMeans,
  repeats: Repeats,
  model: LikingModel | null,
  pairs: readonly FirstPair[],
  margin: number | undefined,
): readonly string[] {
  const notes = readingNotes({ table, means, repeats, model, errors: null }, pairs)
  if (means.tasters > 1 && table.cups.length > 1) {
    const few = pairs.filter(({ paired }) => paired.n < 2)
    const flat = pairs.filter(({ paired }) => paired.n > 1 && paired.p === null)
    if (few.length > 0) notes.push(`Fewer than two tasters scored both, so no paired test: ${named(few)}.`)
    if (flat.length > 0) notes.push(`All tasters differ by the same amount, so no paired test: ${named(flat)}.`)
  }
  if (
    margin !== undefined &&
    pairs.some(({ verdict, paired, p }) => (verdict.basis === 'paired' ? paired.p : p) === null)
  ) {
    notes.push('Margin: null where the comparison has no standard error.')
  }
  return notes
}

function named(pairs: readonly { readonly a: string; readonly b: string }[]): string {
  const shown = pairs.slice(0, 6).map(({ a, b }) => `${a} and ${b}`)
  return shown.join(', ') + (pairs.length > 6 ? ` and ${pairs.length - 6} more` : '')
}
