/** A thermometer held into a batch: °C, and when. */
export interface CoolingReading {
  readonly celsius: number
  readonly at: Date
}

/**
 * What the food code asks of cooked food that needs the cold: °C, and hours since it was last that hot. And of what is made
 * of ingredients at room temperature.
 */
export const COOLING = {
  from: 57,
  steps: [
    { celsius: 21, hours: 2 },
    { celsius: 5, hours: 6 },
  ],
  madeCold: { celsius: 5, hours: 4 },
  source: 'Food Code 3-501.14',
} as const

type Step = (typeof COOLING.steps)[number]

/**
 * Where the cooling of a batch stands. `in-time` is said of nothing that its readings do not show.
 *
 * no-reading     nobody held a thermometer into it
 * start-unknown  none was at 57 °C or above: nobody can say when the time began, and what is too late for sure is said below
 * running        `celsius` must be read by `by`
 * in-time        both were read in time, and the last is no warmer than 5 °C
 * warm-again     was cold in time, and a later reading is above 5 °C
 * not-shown      the time is over and no reading says it was reached by then
 * too-late       a reading at or after the time is still warmer
 */
export type Cooling =
  | { readonly state: 'no-reading' | 'start-unknown' | 'in-time' | 'warm-again' }
  | { readonly state: 'running' | 'not-shown' | 'too-late'; readonly celsius: number; readonly by: Date }

const HOUR = 3_600_000

/**
 * Is this batch cooled in time?
 *
 *     the time begins with the last reading of 57 °C or above before any below;  21 °C or colder within 2 h of it,
 *     5 °C or colder within 6 h of it
 *
 * @param readings  those that count, in any order; nothing is drawn between them
 * @param now       what is not read by its time is over
 *
 * Source   Food Code 3-501.14(A), limits included
 * Checked  test/unit/drink/cooling.test.ts
 * Limits   It was hotter than 57 °C for some time after that reading: who reads seldom is told too early, never too late.
 */
export function coolingOf(readings: readonly CoolingReading[], now: Date): Cooling {
  const inOrder = readings.toSorted((a, b) => a.at.getTime() - b.at.getTime() || b.celsius - a.celsius)
  const [first] = inOrder
  if (!first) return { state: 'no-reading' }
  const below = inOrder.findIndex(({ celsius }) => celsius < COOLING.from)
  const hot = below < 0 ? inOrder.at(-1) : inOrder[below - 1]
  // It began before the first reading: what is too late counted from there is too late all the more.
  const start = (hot ?? first).at.getTime()
  for (const step of COOLING.steps) {
    const verdict = stepOf(step, inOrder, start, now)
    if (verdict !== null && (hot || verdict.state === 'too-late')) return verdict
  }
  if (!hot) return { state: 'start-unknown' }
  const last = inOrder.at(-1) ?? first
  return { state: last.celsius <= COOLING.steps[1].celsius ? 'in-time' : 'warm-again' }
}

/** @returns null where the step was read in time */
function stepOf(
  { celsius, hours }: Step,
  inOrder: readonly CoolingReading[],
  start: number,
  now: Date,
): Cooling | null {
  const by = new Date(start + hours * HOUR)
  const reached = inOrder.find((one) => one.at.getTime() >= start && one.celsius <= celsius)
  if (reached && reached.at <= by) return null
  const still = inOrder.some((one) => one.at >= by && one.celsius > celsius && (!reached || one.at < reached.at))
  return { state: still ? 'too-late' : reached || now > by ? 'not-shown' : 'running', celsius, by }
}
