/** Share poured beyond what is drunk: spills, foam, and what stays in the jug. */
export const overage = 0.15

/** What stands at one seat where a cup is poured there more than once. */
export interface Pourings {
  /** all of them */
  readonly total: number
  /** of the cup that is poured most often, over many seats */
  readonly most: number
  /** of one cup, at the seat that has it most often */
  readonly mostAtSeat: number
}

interface Trays {
  readonly cups: number
  readonly cupsPerTaster: number | null
  /** absent or null: no seat has a cup twice */
  readonly pourings?: Pourings | null
}

/**
 * How many cups stand on one tray?
 *
 * @returns  all of them, or as many as the plan gives each taster; every pouring of a cup is one
 *
 * Checked  test/unit/panel/portions.test.ts
 */
export function cupsOnTray({ cups, cupsPerTaster, pourings }: Trays): number {
  return pourings?.total ?? Math.min(cups, cupsPerTaster ?? cups)
}

/**
 * How many portions of each cup are poured?
 *
 *     ⌈seats · M / K⌉: the orders give every cup equally often, within one; of cups poured more than once at a seat, as many
 *     as the one that is poured most
 *
 * Source   arithmetic
 * Checked  test/unit/panel/portions.test.ts
 */
export function portionsPerCup(plan: Trays & { readonly seats: number }): number {
  const { seats, pourings } = plan
  return Math.ceil(pourings ? seats * pourings.most : (seats * cupsOnTray(plan)) / Math.max(1, plan.cups))
}

/**
 * How much of each cup is made before the panel sits down?
 *
 *     V = portions · ml · 1.15
 *
 * @returns  ml per cup, rounded up to a whole ml
 *
 * Source   common practice, no source: 15 % beyond what is drunk
 * Checked  test/unit/panel/portions.test.ts
 */
export function mlToPour(portions: number, sampleMl: number): number {
  // In hundredths, so that 24 · 40 · 1.15 is 1104 and not a hair more.
  return Math.ceil((portions * sampleMl * Math.round((1 + overage) * 100)) / 100)
}

/**
 * How many spare portions stand ready per jug?
 *
 *     one for every ten portions begun
 *
 * Source   common practice, no source
 * Checked  test/unit/panel/portions.test.ts
 */
export function sparePortions(portions: number): number {
  return Math.ceil(portions / 10)
}
