import { lost } from '@/lib/base/lost'
import type { AcceptanceRow } from './acceptance-row'

/**
 * Which cup did each taster taste just before this one?
 *
 * A sequence is one taster in one session; where that holds a position twice, one taster, session and replicate. Cups
 * poured but left without a score still count as tasted.
 *
 * @param cupAt  places of the cups that were scored
 * @returns per row −1 for the first of a sequence, the place of the cup before, or nothing where it is unknown;
 *          unclear when a sequence holds a position twice even so
 *
 * Checked  test/unit/stats/liking/serving-order.test.ts
 * Limits   a gap in the positions is passed over: the cup before is the nearest one with a lower position.
 */
export function servingOrder(
  rows: readonly AcceptanceRow[],
  cupAt: ReadonlyMap<string, number>,
  withSession: boolean,
): { readonly previous: ReadonlyMap<AcceptanceRow, number>; readonly unclear: boolean } {
  const placed = rows.filter((row) => typeof row.position === 'number')
  const session = (row: AcceptanceRow) => (withSession ? (row.session ?? '') : '')
  const plain = sequences(placed, (row) => JSON.stringify([row.taster, session(row)]))
  const chosen = plain.some(hasTwin)
    ? sequences(placed, (row) => JSON.stringify([row.taster, session(row), row.replicate ?? '']))
    : plain
  if (chosen.some(hasTwin)) return { previous: new Map(), unclear: true }

  const previous = new Map<AcceptanceRow, number>()
  for (const sequence of chosen) {
    sequence.forEach((row, i) => {
      const before = sequence[i - 1]
      const cup = before ? cupAt.get(before.cup) : -1
      if (cup !== undefined) previous.set(row, cup)
    })
  }
  return { previous, unclear: false }
}

function sequences(rows: readonly AcceptanceRow[], keyOf: (row: AcceptanceRow) => string): AcceptanceRow[][] {
  const found = new Map<string, AcceptanceRow[]>()
  for (const row of rows) {
    const key = keyOf(row)
    const own = found.get(key)
    if (own) own.push(row)
    else found.set(key, [row])
  }
  return [...found.values()].map((own) => own.sort((a, b) => (a.position ?? lost()) - (b.position ?? lost())))
}

function hasTwin(sequence: readonly AcceptanceRow[]): boolean {
  return sequence.some((row, i) => i > 0 && row.position === sequence[i - 1]?.position)
}
