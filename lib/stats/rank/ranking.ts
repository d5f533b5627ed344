import { lost } from '@/lib/base/lost'
import { checkLevel } from '../check-level'
import { cupGroups } from '../choice/cup-groups'
import { normalQuantile } from '../distribution/normal'
import { durbin, type DurbinTest } from './durbin'
import { friedman, friedmanExact } from './friedman'
import { midranksPresent } from './midrank'
import { UnusableReadings, type Answer } from '../outcome'
import { page, type PageTest } from './page'
import { plackettLuce } from '../choice/plackett-luce'
import { comparePairs, type RankedPair } from './ranked-pair'
import { tasterTable, type TasterTable } from '../taster-table'

export interface Ranking extends Answer<
  'ranking',
  { readonly tasters: number; readonly cups: number; readonly ranks: number; readonly missing: number }
> {
  readonly cups: readonly {
    readonly cup: string
    readonly rankSum: number
    readonly meanRank: number
    /** how many tasters ranked it before all others */
    readonly firsts: number
  }[]
  readonly friedman: {
    readonly chiSquared: number | null
    readonly df: number
    readonly p: number | null
    readonly pExact: number | null
  } | null
  /** in place of Friedman's where not everybody ranked every cup */
  readonly durbin?: Omit<DurbinTest, 'counted' | 'balanced'>
  readonly leastSignificantDifference: number | null
  readonly pairs: readonly RankedPair[]
  readonly page: PageTest | null
  readonly worth: readonly { readonly cup: string; readonly worth: number; readonly se: number }[] | null
}

/**
 * In which order are the cups liked, and is that more than chance?
 *
 *     Friedman's test (Durbin's where cups are missing), differences of rank sums against z √(n k (k + 1) / 6),
 *     Page's test of an order expected beforehand, worths of Plackett and Luce
 *
 * Where a plan is incomplete, the standard error of a difference is that of within-taster orders without ties: each taster
 * adds kᵢ (kᵢ + 1) / 12 · (Dᵢ − 11ᵀ / kᵢ); in a balanced plan √((k + 1) λ t / 6), λ tasters per pair of cups.
 *
 * @param rows   one per rank, 1 = liked most, ties as midranks; null is a gap
 * @param order  cups in the order expected, liked most first, for Page's test
 * @param exact  false: Friedman's p is not counted exactly, which may take seconds
 * @throws UnusableReadings  a taster ranks a cup twice, no rank at all, cups that no chain of tasters connects,
 *                           an expected order that does not name every cup once
 * @throws RangeError  a rank that is not finite, a level outside (0, 1)
 *
 * Source   ISO 8587; Friedman (1937); Durbin (1951); Page (1963); Plackett (1975)
 * Checked  test/reference/friedman-1937-tails.test.ts, test/reference/ranking-r-cases.test.ts
 * Limits   The least significant difference is for one pair chosen beforehand; over all pairs read pHolm, or signHolm where
 *          some cups may differ and others not.
 */
export function ranking(
  rows: readonly { readonly taster: string; readonly cup: string; readonly rank: number | null }[],
  {
    level,
    order,
    exact = true,
  }: { readonly level: number; readonly order?: readonly string[]; readonly exact?: boolean },
): Ranking {
  checkLevel(level)
  const table = tasterTable(rows.map(({ taster, cup, rank }) => ({ taster, cup, value: rank })))
  const given = onePerCell(table)
  if (table.readings === 0) throw new UnusableReadings(`there is no rank in ${rows.length} rows`)
  checkConnected(table)
  const ranks = given.map(midranksPresent)
  const complete = ranks.every((row) => !row.includes(null)) ? (ranks as number[][]) : null
  const notes = plainNotes(table, given, ranks)
  const plan = complete ? null : durbin(ranks)
  if (plan) notes.push(...planNotes(plan))
  const pairs = comparePairs(table.cups, ranks, !plan || plan.balanced)
  const expected = order ? expectedPage(table, complete, order, notes) : null
  const fit = complete ? friedman(complete) : null
  const pExact = complete && exact ? friedmanExact(complete) : null
  if (fit && fit.p === null) notes.push('every taster tied all cups: there is nothing to test')
  else if (fit && pExact === null)
    notes.push('the exact distribution is too large to count here, so there is no pExact')
  const z = normalQuantile((1 + level) / 2)
  return {
    verb: 'ranking',
    level,
    counts: { tasters: table.tasters.length, cups: table.cups.length, ranks: table.readings, missing: table.missing },
    method: [
      complete
        ? 'Friedman’s test with ties, p from chi-squared on cups − 1, pExact over all orders within tasters given the ties'
        : 'Durbin’s test, pExact over orders within tasters',
      'pairs by the normal distribution of rank-sum differences and by the exact sign test, each with Holm over all pairs',
      ...(order ? ['Page’s test one-sided'] : []),
      'worths by Plackett and Luce, log scale, mean zero',
    ].join('; '),
    notes,
    cups: table.cups.map((cup, j) => {
      const own = ranks.flatMap((row) => row[j] ?? [])
      const rankSum = own.reduce((sum, rank) => sum + rank, 0)
      return {
        cup,
        rankSum,
        meanRank: rankSum / own.length,
        firsts: own.filter((rank) => rank === 1).length,
      }
    }),
    friedman: fit && { chiSquared: fit.chiSquared, df: fit.df, p: fit.p, pExact },
    ...(plan && { durbin: withoutFlags(plan) }),
    leastSignificantDifference: pairs.se === null ? null : z * pairs.se,
    pairs: pairs.list,
    page: expected,
    worth: worths(table, ranks, notes),
  }
}

function onePerCell(table: TasterTable): (number | null)[][] {
  return table.cells.map((cells, i) =>
    cells.map((cell, j) => {
      if (cell.length > 1)
        throw new UnusableReadings(`taster ${table.tasters[i]} ranks cup ${table.cups[j]} ${cell.length} times`)
      return cell[0] ?? null
    }),
  )
}

function checkConnected({ cups, cells }: TasterTable): void {
  const groups = cupGroups(
    cells.map((row) => row.flatMap((cell, j) => (cell.length > 0 ? [j] : []))),
    cups.length,
  )
  if (groups.length === 1) return
  const named = groups.map((group) => group.map((j) => cups[j]).join(', '))
  throw new UnusableReadings(`no taster connects these groups of cups: ${named.join(' | ')}`)
}

function plainNotes(
  table: TasterTable,
  given: readonly (readonly (number | null)[])[],
  ranks: readonly (readonly (number | null)[])[],
) {
  const other = given.filter((row, i) => row.some((x, j) => x !== ranks[i]?.[j])).length
  const left = [
    ...table.emptyCups.map((cup) => `cup ${cup}`),
    ...table.emptyTasters.map((taster) => `taster ${taster}`),
  ]
  return [
    ...(left.length > 0 ? [`without a rank, left out: ${left.join(', ')}`] : []),
    ...(other > 0
      ? [`the ranks of ${other} tasters were not 1, 2, 3 … with midranks among the cups they ranked: ranked anew`]
      : []),
    ...(table.cups.length < 2 ? ['one cup: there is nothing to compare'] : []),
  ]
}

function planNotes(plan: DurbinTest): string[] {
  return [
    'not everybody ranked every cup: Durbin’s test stands in place of Friedman’s, and pExact decides',
    ...(plan.balanced
      ? []
      : ['the plan is not balanced: rank sums are compared after taking off each taster’s mean rank']),
    ...(plan.chiSquared === null ? ['every taster tied all cups: there is nothing to test'] : []),
    ...(plan.chiSquared !== null && plan.F === null ? ['no degrees of freedom are left for F'] : []),
    ...(plan.counted ? [] : ['pExact from 200 000 seeded orders, not from all']),
  ]
}

function withoutFlags({
  chiSquared,
  df,
  p,
  F,
  df1,
  df2,
  pF,
  pExact,
}: DurbinTest): Omit<DurbinTest, 'counted' | 'balanced'> {
  return { chiSquared, df, p, F, df1, df2, pF, pExact }
}

function expectedPage(
  table: TasterTable,
  complete: number[][] | null,
  order: readonly string[],
  notes: string[],
): PageTest | null {
  for (const cup of order) {
    if (!table.cups.includes(cup) && !table.emptyCups.includes(cup))
      throw new UnusableReadings(`no cup is called ${cup}`)
  }
  const missing = table.cups.filter((cup) => !order.includes(cup))
  if (missing.length > 0) throw new UnusableReadings(`the expected order leaves out ${missing.join(', ')}`)
  if (new Set(order).size < order.length)
    throw new UnusableReadings(`the expected order names a cup twice: ${order.join(', ')}`)
  if (!complete) {
    notes.push('Page’s test needs every taster to rank every cup')
    return null
  }
  const columns = order.flatMap((cup) => (table.cups.includes(cup) ? [table.cups.indexOf(cup)] : []))
  return page(complete.map((row) => columns.map((j) => row[j] ?? lost())))
}

function worths(table: TasterTable, ranks: readonly (readonly (number | null)[])[], notes: string[]): Ranking['worth'] {
  const rankings = ranks.map((row) => row.flatMap((rank, cup) => (rank === null ? [] : [{ rank, cup }])))
  if (table.cups.length < 2) return null
  if (rankings.some((row) => new Set(row.map(({ rank }) => rank)).size < row.length)) {
    notes.push('ranks are tied: no worths')
    return null
  }
  const fit = plackettLuce(
    rankings.map((row) => row.toSorted((x, y) => x.rank - y.rank).map(({ cup }) => cup)),
    table.cups.length,
  )
  if ('unbeaten' in fit) {
    const named = fit.unbeaten.map((cup) => table.cups[cup]).join(', ')
    notes.push(`${named}: never ranked below any other cup by anyone, so no finite worths exist`)
    return null
  }
  return table.cups.map((cup, j) => ({ cup, worth: fit.worth[j] ?? lost(), se: fit.se[j] ?? lost() }))
}
