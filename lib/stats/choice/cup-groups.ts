/**
 * Into which groups do the cups fall, when only cups met by the same taster can be compared?
 *
 * @param sets  for each taster, the cups met, as numbers from 0
 * @param n     how many cups there are
 * @returns     one list per group, cups upwards; a single list means that all can be compared
 *
 * Checked  test/unit/stats/choice/cup-groups.test.ts
 */
export function cupGroups(sets: readonly (readonly number[])[], n: number): number[][] {
  const group = Array.from({ length: n }, (_, cup) => cup)
  const root = (cup: number): number => {
    let at = cup
    while (group[at] !== at) at = group[at] ?? at
    return at
  }
  for (const set of sets) {
    for (const cup of set) {
      const [a, b] = [root(set[0] ?? cup), root(cup)]
      group[Math.max(a, b)] = Math.min(a, b)
    }
  }
  const all = group.map((_, cup) => root(cup))
  return [...new Set(all)].map((first) => all.flatMap((own, cup) => (own === first ? [cup] : [])))
}
