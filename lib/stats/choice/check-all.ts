import { checkLevel } from '../check-level'
import { cochran, type CochranTest } from './cochran'
import { UnusableReadings, type Answer } from '../outcome'
import { signTest } from './sign-test'
import { labels, pairsBelow, tasterTable } from '../taster-table'
import { holm, holmWithGaps } from '../multiplicity'

/** What all terms together may take for their exact distributions: about half a second on a small computer. */
const MOST_STEPS = 6_000_000

export interface CheckedTerm extends CochranTest {
  readonly term: string
  /** Holm over the terms, of the exact p or else of p; null where there is nothing to test */
  readonly pHolmTerms: number | null
  /** share of tasters who ticked the term, per cup */
  readonly shares: Readonly<Record<string, number>>
  readonly pairs: readonly {
    readonly a: string
    readonly b: string
    readonly pMcNemar: number
    readonly pHolm: number
  }[]
}

export interface CheckAll extends Answer<
  'check',
  {
    readonly tasters: number
    readonly cups: number
    readonly terms: number
    readonly answers: number
    readonly missing: number
  }
> {
  readonly terms: readonly CheckedTerm[]
}

/**
 * Which words were ticked for some cups more than for others?
 *
 *     per term: Cochran's Q over the tasters who answered for every cup, exact McNemar over those who answered for both, Holm
 *
 * @param rows  one per taster, cup and term; null is a gap
 * @throws UnusableReadings  a taster answers a term twice for one cup
 * @throws RangeError  level outside (0, 1)
 *
 * Source   Cochran (1950), Biometrika 37, 256–266; McNemar (1947), Psychometrika 12, 153–157; Holm (1979)
 * Checked  test/reference/cochran-1950-checked.test.ts
 * Limits   pairs are adjusted within a term; pHolmTerms says which terms stand after all of them are counted. pExact stops at
 *          6 million steps over all terms (20 terms: about 5 cups × 40 tasters).
 */
export function check(
  rows: readonly {
    readonly taster: string
    readonly cup: string
    readonly term: string
    readonly checked: boolean | null
  }[],
  { level }: { readonly level: number },
): CheckAll {
  checkLevel(level)
  const answered = rows.filter(({ checked }) => checked !== null)
  const cups = labels(answered.map(({ cup }) => cup))
  const terms = labels(answered.map(({ term }) => term))
  const notes: string[] = []
  const tested = terms.map((term) =>
    oneTerm(
      term,
      rows.filter((row) => row.term === term),
      { most: MOST_STEPS / terms.length, notes },
    ),
  )
  const overTerms = holmAmongTested(tested.map(({ p, pExact }) => pExact ?? p))
  return {
    verb: 'check',
    level,
    counts: {
      tasters: new Set(answered.map(({ taster }) => taster)).size,
      cups: cups.length,
      terms: terms.length,
      answers: answered.length,
      missing: rows.length - answered.length,
    },
    method:
      'Cochran’s Q, p from chi-squared on cups − 1, pExact by permuting within tasters; exact McNemar for pairs, Holm within the term; pHolmTerms: Holm over the terms that can be tested',
    terms: tested.map((one, at) => ({ ...one, pHolmTerms: overTerms[at] ?? null })),
    notes,
  }
}

/** A term that nobody ticked for some cups and not others is no test, and none of the family. */
function holmAmongTested(ps: readonly (number | null)[]): readonly (number | null)[] {
  const adjusted = holm(ps.flatMap((p) => p ?? []))
  let at = 0
  return ps.map((p) => (p === null ? null : (adjusted[at++] ?? null)))
}

function oneTerm(
  term: string,
  rows: readonly { readonly taster: string; readonly cup: string; readonly checked: boolean | null }[],
  { most, notes }: { readonly most: number; readonly notes: string[] },
): Omit<CheckedTerm, 'pHolmTerms'> {
  const table = tasterTable(
    rows.map(({ taster, cup, checked }) => ({ taster, cup, value: checked === null ? null : Number(checked) })),
  )
  const { tasters, cups } = table
  const ticks = table.cells.map((row, i) =>
    row.map((cell, j) => {
      if (cell.length > 1) throw new UnusableReadings(`taster ${tasters[i]} answers ${term} twice for cup ${cups[j]}`)
      return cell[0] ?? null
    }),
  )
  const complete = ticks.filter((row): row is number[] => !row.includes(null))
  const test = cochran(complete, most)
  if (complete.length < ticks.length) {
    notes.push(`${term}: Q over the ${complete.length} of ${ticks.length} tasters who answered for every cup`)
  }
  if (table.emptyCups.length > 0) notes.push(`${term}: no answer for ${table.emptyCups.join(', ')}, left out`)
  if (test.Q === null) notes.push(`${term}: no taster ticked some cups and not others, so there is nothing to test`)
  else if (test.pExact === null)
    notes.push(`${term}: the exact distribution is too large to count, so there is no pExact`)
  const pairs = pairsBelow(cups.length).map(([a, b]) => {
    const count = (x: number, y: number): number => ticks.filter((row) => row[a] === x && row[b] === y).length
    return { a: cups[a] ?? '', b: cups[b] ?? '', pMcNemar: signTest(count(1, 0), count(0, 1)) }
  })
  const adjusted = holmWithGaps(pairs.map(({ pMcNemar }) => pMcNemar))
  return {
    term,
    ...test,
    shares: Object.fromEntries(
      cups.map((cup, j) => {
        const own = ticks.flatMap((row) => row[j] ?? [])
        return [cup, own.reduce((sum, tick) => sum + tick, 0) / own.length]
      }),
    ),
    pairs: pairs.map((pair, i) => ({ ...pair, pHolm: adjusted[i] ?? 1 })),
  }
}
