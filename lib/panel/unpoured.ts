/** What says whether a cup was there to be tasted when it was scored. */
export interface StandingCup {
  /** ticked off on the serving list */
  readonly pouredAt: Date | null
  /** its taster found the code on it */
  readonly codeSeenAt: Date | null
  readonly hasScore: boolean
}

/**
 * Which scores stand on cups that nobody ticked as poured, and whose code no taster confirmed on a phone?
 *
 * @param cups  of one panel, all of them
 * @returns     those cups, to be marked and never dropped; null where nobody ticked any cup, for then it cannot be told
 *
 * Source   our own rule
 * Checked  test/unit/panel/unpoured.test.ts
 * Limits   A tick or a confirmed code is somebody's word, no proof. Scores from paper have no phone that confirms a code.
 */
export function findUnpoured<Cup extends StandingCup>(cups: readonly Cup[]): readonly Cup[] | null {
  if (cups.every(({ pouredAt }) => pouredAt === null)) return null
  return cups.filter(({ pouredAt, codeSeenAt, hasScore }) => hasScore && pouredAt === null && codeSeenAt === null)
}
