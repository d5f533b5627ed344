/** When the house set a seat aside: while nobody could read a score, or after they could. */
export type SetAside = 'before-closing' | 'after-closing'

/**
 * Is this seat set aside, and was that chosen blind?
 *
 *     set aside before closing: left out of what the panel claims, for nobody had read a score. Set aside afterwards: it
 *     stays in the claim, for what carries a claim must not be chosen after looking. Either way the result shows the
 *     other reading beside it.
 *
 * @param closedAt  null while the panel is open
 * @returns         null for a seat that is not set aside
 *
 * Source   our own rule
 * Checked  test/unit/panel/set-aside.test.ts, test/integration/panel/set-seat-aside.test.ts
 */
export function findSetAside(setAsideAt: Date | null, closedAt: Date | null): SetAside | null {
  if (setAsideAt === null) return null
  return closedAt === null || setAsideAt.getTime() <= closedAt.getTime() ? 'before-closing' : 'after-closing'
}

/**
 * The moment to note for a seat set aside now: after closing never one that would read as before it, whatever the clock says.
 *
 * Checked  test/unit/panel/set-aside.test.ts
 */
export function momentAside(now: Date, closedAt: Date | null): Date {
  return closedAt !== null && now.getTime() <= closedAt.getTime() ? new Date(closedAt.getTime() + 1) : now
}
