/**
 * The two lists of a pouring. Neither joins a code to a trial: the filling list ends at the jug, the serving list
 * begins there. The file that joins both ends is blind.ts, and it opens only when the panel has closed.
 */
export const listNames = ['filling', 'serving'] as const
export type ListName = (typeof listNames)[number]

/** One jug: what goes in, and the letter on it. */
export interface Jug {
  readonly letter: string
  readonly trialName: string
  readonly trialNumber: number
}

/** One serving on a tray: from which jug, under which code. */
export interface TrayCup {
  readonly servingId: string
  readonly letter: string
  readonly code: string
  readonly poured: boolean
}

export interface Tray {
  readonly seat: number
  readonly left: boolean
  readonly cups: readonly TrayCup[]
}

/**
 * In which order does one fill the jugs?
 *
 *     by letter: the place in the plan would tell nothing, but a list in jug order is what stands on the table
 *
 * Checked  test/unit/panel/pouring-list.test.ts
 */
export function fillingList(jugs: readonly Jug[]): readonly Jug[] {
  return jugs.toSorted((a, b) => (a.letter < b.letter ? -1 : a.letter > b.letter ? 1 : 0))
}

/** One serving as the database gives it. */
export interface ServingRow extends TrayCup {
  readonly seat: number
  readonly seatLeft: boolean
  readonly position: number
}

/**
 * What stands on each tray, from left to right?
 *
 *     seats by number; on each the cups as that seat tastes them, first cup first
 *
 * Checked  test/unit/panel/pouring-list.test.ts
 */
export function servingList(rows: readonly ServingRow[]): readonly Tray[] {
  const bySeat = new Map<number, ServingRow[]>()
  for (const row of rows) bySeat.set(row.seat, [...(bySeat.get(row.seat) ?? []), row])
  return [...bySeat]
    .toSorted(([a], [b]) => a - b)
    .map(([seat, servings]) => ({
      seat,
      left: servings.some((serving) => serving.seatLeft),
      cups: servings
        .toSorted((a, b) => a.position - b.position)
        .map(({ servingId, letter, code, poured }) => ({ servingId, letter, code, poured })),
    }))
}
