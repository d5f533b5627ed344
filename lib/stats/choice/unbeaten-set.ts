/**
 * Is there a set of cups that no other cup ever beat, so that no finite worth fits?
 *
 *     worths are finite only if every cup can be reached from every other along "beat" (Ford's condition)
 *
 * @param beat  beat[i][j]: cup i was liked more than cup j at least once
 * @returns     the cups of such a set, upwards, or null when there is none
 *
 * Source   Ford (1957), Am. Math. Monthly 64(8), 28–33; Hunter (2004), Annals of Statistics 32(1), assumption 1
 * Checked  test/unit/stats/choice/unbeaten-set.test.ts
 * Cost     n³
 */
export function unbeatenSet(beat: readonly (readonly boolean[])[]): number[] | null {
  const reach = beat.map((row, i) => row.map((x, j) => x || i === j))
  for (let via = 0; via < reach.length; via += 1) {
    for (const row of reach) {
      if (!row[via]) continue
      reach[via]?.forEach((x, j) => {
        if (x) row[j] = true
      })
    }
  }
  const mutual = reach.map((row, i) => row.flatMap((x, j) => (x && reach[j]?.[i] ? [j] : [])))
  const first = reach.findIndex((_, i) => reach.every((row, j) => !row[i] || mutual[i]?.includes(j)))
  const set = mutual[first] ?? []
  return set.length === reach.length ? null : set
}
