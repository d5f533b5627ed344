import 'server-only'
import type { DiaryRow } from './diary-lines'

/** A line that stands by itself, or what tasters did one after the other with nobody of the house between. */
export type Piece = readonly [DiaryRow, ...DiaryRow[]]

/**
 * Cuts rows of the diary, newest first, into pieces: a taster's steps that follow each other are one, every other line is one.
 *
 * @param most  pieces wanted
 * @returns     those pieces, and whether rows are left over; the last piece may go on in rows that were not given
 */
export function foldSteps(
  rows: readonly DiaryRow[],
  most: number,
): { readonly pieces: readonly Piece[]; readonly left: boolean } {
  const pieces: [DiaryRow, ...DiaryRow[]][] = []
  for (const row of rows) {
    const last = pieces.at(-1)
    if (last && last[0].actorKind === 'taster' && row.actorKind === 'taster') last.push(row)
    else if (pieces.length === most) return { pieces, left: true }
    else pieces.push([row])
  }
  return { pieces, left: false }
}

/** How often each act was done, the most frequent first. */
export function countActs(rows: readonly DiaryRow[]): readonly { readonly act: string; readonly count: number }[] {
  const counts = new Map<string, number>()
  for (const { act } of rows) counts.set(act, (counts.get(act) ?? 0) + 1)
  return [...counts]
    .map(([act, count]) => ({ act, count }))
    .sort((a, b) => b.count - a.count || (a.act < b.act ? -1 : 1))
}
