import type { NamelessResult } from '@/lib/tasks/result/read-shared'

type Liking = NonNullable<NamelessResult['liking']>

/** What a result rests on, and what stands on its page to look at alone. */
export interface SaidMethod {
  readonly carries: string
  readonly beside: readonly string[]
}

/** @param margin  the panel has one */
export function sayMethod(
  { plan, overall, position }: Pick<Liking, 'plan' | 'overall' | 'position'>,
  margin: boolean,
): SaidMethod {
  const { pairs, level } = plan
  const many = pairs > 1
  const at = `${Math.round(100 * level)} %`
  return {
    carries: [
      `Every claim is read off ${many ? `the joint intervals of the ${pairs} planned comparisons` : 'the interval of the one planned comparison'}, and off nothing else: the mixed model’s difference (restricted maximum likelihood, tasters at random), with an error that believes in the tasters alone (CR2, Satterthwaite’s degrees of freedom)${many ? `, reaching so far that all ${pairs} hold together at ${at} (Bonferroni)` : `, at ${at}`}.`,
      ...(margin ? ['What is said by the margin is read off the same, at 90 %.'] : []),
    ].join(' '),
    beside: [
      `each cup’s liking with its ${at} interval, by the same error, taken alone`,
      'pairs that were not planned, each interval taken alone',
      'how many preferred which cup',
      ...(overall.p === null ? [] : ['the F of all cups together, which believes in one spread for all cups']),
      ...(position?.p == null ? [] : ['the p of the place in the order']),
    ],
  }
}
