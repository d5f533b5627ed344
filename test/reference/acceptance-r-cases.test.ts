import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { acceptance } from '@/lib/stats/liking/acceptance'

/**
 * Seventeen made-up panels: balanced, missing at random, incomplete blocks, singular, three tasters, sessions, repeats.
 * Made   reference/make/acceptance-r-cases.R: lme4, lmerTest, pbkrtest, emmeans, mvtnorm; versions in the file.
 * Where R's optimiser and numeric second derivatives are the coarser side the tolerance follows them.
 */
interface Columns {
  readonly [name: string]: readonly number[]
}
interface Described {
  readonly overall: { readonly F: number; readonly df1: number; readonly df2: number; readonly p: number }
  readonly cups: Columns
  readonly pairs: Columns
  readonly control: Columns
}
interface Case {
  readonly name: string
  readonly nested: boolean
  readonly session: boolean
  readonly singular: boolean
  readonly rows: {
    readonly taster: readonly string[]
    readonly cup: readonly string[]
    readonly session: readonly string[]
    readonly score: readonly number[]
  }
  readonly variance: { readonly taster: number; readonly tasterByCup: number | null; readonly residual: number }
  readonly remlCriterion: number
  readonly satterthwaite: Described
  readonly kenwardRoger: Described
}
const file = JSON.parse(readFileSync(new URL('./data/acceptance-r-cases.json', import.meta.url), 'utf8')) as {
  cases: readonly Case[]
}

const within = { estimate: 1e-6, df: 2e-4, p: 2e-5, variance: 1e-5, tukey: 1e-5 }

function near(
  got: number | null | undefined,
  want: number | null | undefined,
  relative: number,
  what: string,
  floor = 1,
) {
  expect(typeof got, what).toBe('number')
  expect(typeof want, what).toBe('number')
  const off = Math.abs((got ?? NaN) - (want ?? NaN)) / Math.max(Math.abs(want ?? NaN), floor)
  expect(off, `${what}: got ${got}, R has ${want}`).toBeLessThan(relative)
}

for (const each of file.cases) {
  const { taster, cup, session, score } = each.rows
  const rows = Object.freeze(
    taster.map((name, i) => ({
      taster: name,
      cup: cup[i] ?? '',
      score: score[i] ?? null,
      ...(each.session ? { session: session[i] ?? null } : {}),
    })),
  )
  for (const df of ['satterthwaite', 'kenward-roger'] as const) {
    test(`${each.name}: ${df} agrees with R`, () => {
      const want = df === 'satterthwaite' ? each.satterthwaite : each.kenwardRoger
      const got = acceptance(rows, { level: 0.95, df, control: 'A', replicated: each.nested, session: each.session })
      const scale = Math.max(each.variance.residual, each.variance.taster)

      expect(got.model.singular).toBe(each.singular)
      near(got.model.remlCriterion, each.remlCriterion, 1e-7, 'REML criterion')
      near(got.model.variance.taster, each.variance.taster, within.variance, 'taster variance', scale / 100)
      near(got.model.variance.residual, each.variance.residual, within.variance, 'residual variance', scale / 100)
      if (each.nested)
        near(got.model.variance.tasterByCup, each.variance.tasterByCup, within.variance, 'taster by cup', scale / 100)
      else expect(got.model.variance.tasterByCup).toBeNull()

      expect(got.overall.df1).toBe(want.overall.df1)
      near(got.overall.F, want.overall.F, within.df, 'F')
      near(got.overall.df2, want.overall.df2, within.df, 'denominator df')
      near(got.overall.p, want.overall.p, within.p, 'p of F')

      got.cups.forEach((cup, i) => {
        near(cup.estimate, want.cups['estimate']?.[i], within.estimate, `${cup.cup} estimate`)
        near(cup.se, want.cups['se']?.[i], within.estimate * 10, `${cup.cup} se`)
        near(cup.df, want.cups['df']?.[i], within.df, `${cup.cup} df`)
        near(cup.interval?.[0], want.cups['low']?.[i], within.p, `${cup.cup} low`)
        near(cup.interval?.[1], want.cups['high']?.[i], within.p, `${cup.cup} high`)
      })
      got.pairs.forEach((pair, i) => {
        const name = `${pair.a} − ${pair.b}`
        near(pair.difference, want.pairs['difference']?.[i], within.estimate * 10, `${name} difference`)
        near(pair.se, want.pairs['se']?.[i], within.estimate * 10, `${name} se`)
        near(pair.df, want.pairs['df']?.[i], within.df, `${name} df`)
        near(pair.t, want.pairs['t']?.[i], within.p, `${name} t`)
        near(pair.p, want.pairs['p']?.[i], within.p, `${name} p`)
        near(pair.pHolm, want.pairs['pHolm']?.[i], within.p * 5, `${name} Holm`)
        near(pair.pTukey, want.pairs['pTukey']?.[i], within.tukey, `${name} Tukey`)
        near(pair.interval?.[0], want.pairs['low']?.[i], within.p, `${name} low`)
        const reach = (want.pairs['reachTukey']?.[i] ?? NaN) * (want.pairs['se']?.[i] ?? NaN)
        near(pair.intervalTukey?.[1], (want.pairs['difference']?.[i] ?? NaN) + reach, 1e-4, `${name} Tukey's interval`)
      })
      got.control?.pairs.forEach((pair, i) => {
        near(pair.difference, want.control['difference']?.[i], within.estimate * 10, `${pair.cup} − A`)
        near(pair.pDunnett, want.control['pDunnett']?.[i], 1e-5, `${pair.cup} − A Dunnett`)
      })
    })
  }
}
