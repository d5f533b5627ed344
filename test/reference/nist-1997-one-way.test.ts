/**
 * One-way analysis of variance, certified to fifteen digits: the F of ICC(1,1) is that of cups against readings within cups.
 * Printed   NIST Statistical Reference Datasets, analysis of variance: SiRstv, AtmWtAg, SmLs01, SmLs04, SmLs07
 *           (data/nist_*.csv keep the readings as text; certified values in data/nist_strd_anova.json)
 * Within    1e-9 relative for SiRstv and SmLs01; AtmWtAg, SmLs04 and SmLs07 have 6, 7 and 13 constant leading digits, which
 *           the doubles holding the readings no longer carry: 1e-8, 1e-8 and 2e-2 (R's own lm: 2e-10, 1e-10 and 3e-3)
 */
import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { icc } from '@/lib/stats/liking/agreement'

interface Certified {
  readonly set: string
  readonly df_between: number
  readonly df_within: number
  readonly F: number
}
const { values } = JSON.parse(readFileSync('test/reference/data/nist_strd_anova.json', 'utf8')) as {
  values: Certified[]
}

/** Readings as tasters × cups: the first reading of every group, then the second, … */
function readings(set: string): number[][] {
  const rows: { cup: string; score: string }[] = parse(readFileSync(`test/reference/data/nist_${set}.csv`, 'utf8'), {
    columns: true,
    comment: '#',
  })
  const groups = new Map<string, number[]>()
  for (const { cup, score } of rows) groups.set(cup, [...(groups.get(cup) ?? []), Number(score)])
  const columns = [...groups.values()]
  return (columns[0] ?? []).map((_, reading) => columns.map((column) => column[reading] ?? Number.NaN))
}

test.each([
  ['SiRstv', 1e-9],
  ['AtmWtAg', 1e-8],
  ['SmLs01', 1e-9],
  ['SmLs04', 1e-8],
  ['SmLs07', 2e-2],
])('%s: F and its degrees of freedom are the certified ones, within %d', (set, within) => {
  const certified = values.find((one) => one.set === set)
  const oneWay = icc(readings(set), 0.95).find((one) => one.type === 'ICC(1,1)')
  expect([oneWay?.df1, oneWay?.df2]).toEqual([certified?.df_between, certified?.df_within])
  expect(Math.abs((oneWay?.F ?? Number.NaN) / (certified?.F ?? Number.NaN) - 1)).toBeLessThan(within)
})
