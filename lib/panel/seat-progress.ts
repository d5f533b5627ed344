/** Where a seat stands while the panel is open, without a word about what it scored. */
export type SeatStanding = 'free' | 'tasting' | 'finished' | 'left' | 'barred' | 'set-aside'

/**
 * How far has this seat come?
 *
 *     set aside, when the house leaves it out; finished, when every cup is settled (scored and locked, or skipped); left, when it went before that;
 *     barred, when its taster knows too much to go on; tasting, when it is taken; free otherwise
 *
 * @param seat  settled: how many of its cups are locked or skipped, of `cups`
 *
 * Checked  test/unit/panel/seat-progress.test.ts
 */
export function seatState(seat: {
  readonly taken: boolean
  readonly left: boolean
  readonly barred: boolean
  readonly aside: boolean
  readonly settled: number
  readonly cups: number
}): SeatStanding {
  if (seat.aside) return 'set-aside'
  if (seat.cups > 0 && seat.settled >= seat.cups) return 'finished'
  if (seat.left) return 'left'
  if (seat.barred) return 'barred'
  return seat.taken ? 'tasting' : 'free'
}
