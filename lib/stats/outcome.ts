/** Two ends, low then high, in the unit of what they bracket. Never clipped to the scale. */
export type Interval = readonly [low: number, high: number]

/** What every answer carries beside its numbers, so that a reader can tell how they came about. */
export interface Answer<Verb extends string, Counts> {
  readonly verb: Verb
  /** coverage of the intervals and one minus the risk of the tests, 0 < level < 1 */
  readonly level: number
  readonly counts: Counts
  /** the test, its degrees of freedom and the kind of interval, in words */
  readonly method: string
  /** a sentence for each thing that is missing, degenerate or was treated specially */
  readonly notes: readonly string[]
}

/**
 * The readings given cannot carry the question asked (unconnected groups, a label that is not there).
 * The message is written for the person who sent them and repeats the offending value.
 */
export class UnusableReadings extends RangeError {
  override readonly name = 'UnusableReadings'
}
