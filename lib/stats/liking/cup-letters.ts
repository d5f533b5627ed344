import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'

/**
 * Which cups share a letter because the readings do not tell them apart?
 *
 * Every largest possible group of cups, no two of which are separated, gets one letter; a cup may stand in several. "a"
 * goes to the group of the highest cup, the rest follow by their highest members.
 *
 * @param values     one per cup, higher is better liked
 * @param separated  whether cups i and j are told apart; symmetric
 * @returns letters per cup, in the order of `values`
 *
 * Source   Bron and Kerbosch (1973), Commun. ACM 16(9), 575–577 (maximal cliques); Piepho (2004), J. Comput. Graph.
 *          Stat. 13(2), 456–466 (what the letters mean).
 * Checked  test/unit/stats/liking/cup-letters.test.ts
 * Cost     the number of groups can grow exponentially with contradictory separations; panels have a dozen cups.
 */
export function cupLetters(values: readonly number[], separated: (i: number, j: number) => boolean): readonly string[] {
  const ranking = values.map((_, i) => i).sort((i, j) => (values[j] ?? lost()) - (values[i] ?? lost()) || i - j)
  const groups: number[][] = []
  const grow = (group: number[], open: number[], done: number[]) => {
    if (open.length === 0) {
      if (done.length === 0) groups.push(group)
      return
    }
    const kin = (i: number, among: number[]) => among.filter((j) => j !== i && !touches(i, j))
    const touches = (i: number, j: number) => separated(ranking[i] ?? lost(), ranking[j] ?? lost())
    const pivot = [...open, ...done].reduce((best, i) => (kin(i, open).length > kin(best, open).length ? i : best))
    const tried = [...done]
    let left = open
    for (const i of open.filter((j) => j === pivot || touches(pivot, j))) {
      grow([...group, i], kin(i, left), kin(i, tried))
      left = left.filter((j) => j !== i)
      tried.push(i)
    }
  }
  grow(
    [],
    ranking.map((_, rank) => rank),
    [],
  )

  const sorted = groups.map((group) => group.sort((a, b) => a - b)).sort(byMembers)
  const letters = values.map(() => '')
  sorted.forEach((group, g) => {
    for (const rank of group) letters[ranking[rank] ?? lost()] += letterOf(g)
  })
  return letters
}

function byMembers(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const order = (a[i] ?? lost()) - (b[i] ?? lost())
    if (order !== 0) return order
  }
  return a.length - b.length
}

function letterOf(group: number): string {
  const alphabet = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ'
  demand(group < alphabet.length, `letters reach for ${alphabet.length} groups, got ${group + 1}`)
  return alphabet.charAt(group)
}
