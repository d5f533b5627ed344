/** Where an answer came from. What belongs to the phone is neither read nor typed over before the panel has closed. */
export type AnswerSource = 'phone' | 'paper'

/** What is known of a serving without reading what was said. Sources are as stored: null before they were kept. */
export interface KeptAnswers {
  readonly isSkipped: boolean
  readonly skipSource: string | null
  readonly hasComment: boolean
  readonly commentSource: string | null
  readonly scoreSources: readonly string[]
}

/**
 * Whose are the scores or the skip of this cup, and whose is its comment?
 *
 *     a cup is the phone's as soon as one score or the skip is; a comment may be the phone's beside scores from paper.
 *     A skip or comment without a source is the phone's, unless every score of the cup is from paper.
 *
 * @returns  null where nothing was said
 *
 * Checked  test/unit/panel/answer-source.test.ts
 */
export function answeredOn(kept: KeptAnswers): {
  readonly answer: AnswerSource | null
  readonly comment: AnswerSource | null
} {
  const { scoreSources } = kept
  const allPaper = scoreSources.length > 0 && scoreSources.every((source) => source === 'paper')
  const sourceOf = (stored: string | null): AnswerSource => {
    if (stored === null) return allPaper ? 'paper' : 'phone'
    return stored === 'paper' ? 'paper' : 'phone'
  }
  const said = [...scoreSources, ...(kept.isSkipped ? [sourceOf(kept.skipSource)] : [])]
  return {
    answer: said.length === 0 ? null : said.every((source) => source === 'paper') ? 'paper' : 'phone',
    comment: kept.hasComment ? sourceOf(kept.commentSource) : null,
  }
}
