import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { acceptance } from '@/lib/stats/liking/acceptance'

/**
 * Position and carry-over in a mixed model: three Williams squares, and a panel with servings missing.
 * Made   reference/make/acceptance-order-effects.R: lmerTest::contestMD, pbkrtest::KRmodcomp, emmeans; versions in the file.
 * The analysis with tasters as fixed blocks (carryover.json, stats::lm) gives the same F for position: positions and tasters
 * are orthogonal there.
 */
interface Tested {
  readonly F: number
  readonly df1: number
  readonly df2: number
  readonly p: number
}
interface Case {
  readonly name: string
  readonly rows: {
    readonly taster: readonly string[]
    readonly cup: readonly string[]
    readonly position: readonly number[]
    readonly score: readonly number[]
  }
  readonly position: { readonly satterthwaite: Tested; readonly kenwardRoger: Tested }
  readonly carryOver: { readonly satterthwaite: Tested; readonly kenwardRoger: Tested }
  readonly means: readonly number[]
}
const read = (name: string): unknown => JSON.parse(readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8'))
const { cases } = read('acceptance-order-effects.json') as { cases: readonly Case[] }
const blocks = read('carryover.json') as { values: { position: { F: number; df: number[]; p: number } } }

const rowsOf = ({ rows }: Case) =>
  rows.taster.map((taster, i) => ({
    taster: String(taster),
    cup: rows.cup[i] ?? '',
    position: rows.position[i] ?? null,
    score: rows.score[i] ?? null,
  }))

for (const each of cases) {
  for (const df of ['satterthwaite', 'kenward-roger'] as const) {
    test(`${each.name}: position and carry-over by ${df} agree with R`, () => {
      const key = df === 'satterthwaite' ? 'satterthwaite' : 'kenwardRoger'
      const got = acceptance(rowsOf(each), { level: 0.95, df })
      for (const effect of ['position', 'carryOver'] as const) {
        const want = each[effect][key]
        expect(got[effect]?.df1).toBe(want.df1)
        expect(Math.abs((got[effect]?.F ?? NaN) / want.F - 1), `${effect} F`).toBeLessThan(2e-6)
        expect(Math.abs((got[effect]?.df2 ?? NaN) / want.df2 - 1), `${effect} df`).toBeLessThan(1e-4)
        expect(Math.abs((got[effect]?.p ?? NaN) - want.p), `${effect} p`).toBeLessThan(1e-5)
      }
      each.means.forEach((mean, i) => expect(Math.abs((got.position?.means[i] ?? NaN) - mean)).toBeLessThan(1e-6))
    })
  }
}

test('with Williams squares position is tested as with tasters as fixed blocks', () => {
  const [square] = cases
  const { F, df, p } = blocks.values.position
  const got = square && acceptance(rowsOf(square), { level: 0.95 }).position
  expect(Math.abs((got?.F ?? NaN) - F)).toBeLessThan(1e-9)
  expect(got?.df1).toBe(df[0])
  expect(Math.abs((got?.df2 ?? NaN) - (df[1] ?? NaN))).toBeLessThan(1e-6)
  expect(Math.abs((got?.p ?? NaN) - p)).toBeLessThan(1e-8)
})
