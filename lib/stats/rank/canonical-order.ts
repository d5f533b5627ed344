import { lost } from '@/lib/base/lost'

/**
 * In which order do tasters and cups stand, if no label may matter?
 *
 *     a cup is known by the ranks it got and from whom, a taster by the ranks given and to which cups;
 *     classes are refined until they stand still, then one cup of the first class still tied is set apart, and so on
 *
 * Seeded draws must not change when somebody renames a cup: draw along this order.
 *
 * @param table  tasters × cups, null where the taster did not meet the cup
 * @returns      places of the tasters and of the cups in `table`
 *
 * Source   Weisfeiler & Leman (1968), refinement of colours
 * Checked  test/unit/stats/rank/canonical-order.test.ts
 * Limits   Cups that refinement cannot tell apart are taken to be interchangeable.
 */
export function canonicalOrder(table: readonly (readonly (number | null)[])[]): { tasters: number[]; cups: number[] } {
  const k = table[0]?.length ?? 0
  let cups = new Array<number>(k).fill(0)
  let tasters = table.map(() => 0)
  for (;;) {
    for (let classes = -1; ;) {
      tasters = classify(
        table.map((row) => sortedText(row.map((rank, j) => (rank === null ? '' : `${rank}:${cups[j]}`)))),
      )
      cups = classify(
        cups.map(
          (own, j) =>
            `${String(own).padStart(6, '0')}|${sortedText(table.map((row, i) => (row[j] === null ? '' : `${row[j]}:${tasters[i]}`)))}`,
        ),
      )
      const now = new Set(cups).size + new Set(tasters).size
      if (now === classes) break
      classes = now
    }
    const tied = cups.findIndex((own, j) => cups.indexOf(own) < j)
    if (tied < 0) break
    const first = Math.min(...cups.filter((own, j) => cups.indexOf(own) !== j))
    const apart = cups.indexOf(first)
    cups = cups.map((own, j) => (j === apart ? 2 * own : 2 * own + 1))
  }
  const along = (own: readonly number[]): number[] =>
    own.map((_, at) => at).sort((a, b) => (own[a] ?? lost()) - (own[b] ?? lost()))
  return { tasters: along(tasters), cups: along(cups) }
}

function sortedText(list: readonly string[]): string {
  return list
    .filter((text) => text !== '')
    .sort()
    .join(' ')
}

/** Numbers the different texts by their order, so that the numbers do not depend on who came first. */
function classify(texts: readonly string[]): number[] {
  const different = [...new Set(texts)].sort()
  const numbers = new Map(different.map((text, at) => [text, at]))
  return texts.map((text) => numbers.get(text) ?? lost())
}
