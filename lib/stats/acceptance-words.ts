import type { CupPair } from './acceptance-answer'
import type { DegreesMethod } from './fixed-effects'
import type { LikingModel, Repeats } from './liking-model'
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
 * @param complete  every taster scored every cup
 */
export function acceptanceMethod(df: DegreesMethod, complete: boolean, control: boolean, level: number): string {
  const percent = `${Number((100 * level).toPrecision(10))} %`
  return [
    'linear mixed model with random tasters by restricted maximum likelihood',
    `${df === 'satterthwaite' ? 'Satterthwaite' : 'Kenward–Roger'} degrees of freedom, t intervals at ${percent}`,
    'pairs with Holm and Tukey over all pairs',
    ...(control ? ['comparisons with the control with Dunnett, correlation estimated'] : []),
    complete
      ? 'verdicts on the tasters’ own differences (paired t, n − 1 degrees of freedom), Holm'
      : 'verdicts on the model, because not every taster scored every cup, Holm',
    'share of preference by Wilson, signed rank by Pratt',
  ].join('; ')
}

/**
 * What is missing, degenerate or treated specially in these readings?
 *
 * @returns one sentence each
 */
export function acceptanceNotes(
  table: ScoreTable,
  means: TasterMeans,
  repeats: Repeats,
  model: LikingModel | null,
  pairs: readonly CupPair[],
  margin: number | undefined,
): readonly string[] {
  const notes: string[] = []
  const { neverScored, withoutSession, cups } = table
  if (neverScored.length > 0) notes.push(`Never scored and left out: ${neverScored.join(', ')}.`)
  if (withoutSession > 0) notes.push(`${withoutSession} scores without a session are left out.`)
  if (repeats === 'averaged') {
    notes.push(`${means.repeated} taster–cup pairs were scored more than once; too few for a variance, so averaged.`)
  }
  if (means.tasters === 1) notes.push('One taster: means only, nothing can be tested.')
  if (cups.length === 1) notes.push('One cup: means only, there is nothing to compare it with.')
  if (model?.singular) notes.push('singular fit')
  if (model?.why === 'no residual') {
    notes.push(
      model.variance.taster === 0 && pairs.every(({ difference }) => Math.abs(difference) <= 16 * table.grain)
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
  if (means.tasters > 1 && cups.length > 1) {
    const few = pairs.filter(({ paired }) => paired.n < 2)
    const flat = pairs.filter(({ paired }) => paired.n > 1 && paired.p === null)
    if (few.length > 0) notes.push(`Fewer than two tasters scored both, so no paired test: ${named(few)}.`)
    if (flat.length > 0) notes.push(`All tasters differ by the same amount, so no paired test: ${named(flat)}.`)
    const undecided = pairs.filter(({ preferA, preferB, paired }) => paired.n > 0 && preferA + preferB === 0)
    if (undecided.length > 0) notes.push(`Every taster scored both alike, so no share: ${named(undecided)}.`)
    if (model?.effects && pairs.some(({ df }) => df === null)) {
      notes.push('The likelihood is too flat for degrees of freedom: no tests from the model.')
    }
  }
  if (
    margin !== undefined &&
    pairs.some(({ verdict, paired, p }) => (verdict.basis === 'paired' ? paired.p : p) === null)
  ) {
    notes.push('Margin: null where the comparison has no standard error.')
  }
  return notes
}

function named(pairs: readonly CupPair[]): string {
  const shown = pairs.slice(0, 6).map(({ a, b }) => `${a} and ${b}`)
  return shown.join(', ') + (pairs.length > 6 ? ` and ${pairs.length - 6} more` : '')
}
