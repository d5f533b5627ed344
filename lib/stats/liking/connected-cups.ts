import { connectedGroups } from './connected-groups'
import { byLabel } from '../label-order'
import { UnusableReadings } from '../outcome'
import type { ScoreTable } from './score-table'

/**
 * Can all cups be compared with one another, through tasters who met more than one and sessions that share cups?
 *
 * @throws UnusableReadings  cups (with their tasters or sessions) that fall into groups with nothing in common, named
 *
 * Source   Searle (1987), Linear Models for Unbalanced Data, section 5.3 (connectedness of two factors).
 * Checked  test/unit/stats/liking/connected-cups.test.ts
 */
export function checkConnectedCups(table: ScoreTable): void {
  refuseGroups(table, table.tasters, table.tasterOf, 'tasters')
  if (table.sessions.length > 1) refuseGroups(table, table.sessions, table.sessionOf, 'sessions')
}

function refuseGroups(table: ScoreTable, things: readonly string[], thingOf: Int32Array, what: string): void {
  const groups = connectedGroups(table.cupOf, thingOf, table.cups.length, things.length)
  if (groups.count < 2) return

  const named = Array.from({ length: groups.count }, (_, group) => {
    const cups = table.cups.filter((_, cup) => groups.left[cup] === group)
    const own = things.filter((_, thing) => groups.right[thing] === group)
    return `cups ${some(cups)} with ${what} ${some([...own].sort(byLabel))}`
  })
  throw new UnusableReadings(
    `cups and ${what} fall into ${groups.count} groups that share nothing and cannot be compared: ${named.join(' | ')}`,
  )
}

function some(labels: readonly string[]): string {
  const shown = labels.slice(0, 12).join(', ')
  return labels.length > 12 ? `${shown} and ${labels.length - 12} more` : shown
}
