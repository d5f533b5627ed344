import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { acceptance } from '@/lib/stats/liking/acceptance'

/**
 * Claims and the joint intervals they are read off: complete, one score missing, incomplete blocks, repeats, one pair,
 * against a control, a margin at its own level, steps of the scale, unanimity, too few tasters.
 * Made   reference/make/claims-r-cases.R: lme4, clubSandwich, qt; the rules written out anew there from their sentences.
 * Errors within 1e-5 relative, degrees of freedom 1e-4, ends 1e-4; words exactly.
 */
interface Case {
  readonly name: string
  readonly plan: {
    readonly plan: 'all' | 'against' | 'pair'
    readonly control?: string
    readonly pair?: [string, string]
  }
  readonly level: number
  readonly margin: number
  readonly marginLevel: number
  readonly step: number | null
  readonly nested: boolean
  readonly rows: { readonly taster: string[]; readonly cup: string[]; readonly score: number[] }
  readonly claims: readonly {
    readonly a: string
    readonly b: string
    readonly tasters: number
    readonly difference: number
    readonly se: number
    readonly df: number
    readonly low: number
    readonly high: number
    readonly claim: string
    readonly lowMargin: number
    readonly highMargin: number
    readonly byMargin?: string | null
  }[]
}
const { cases } = JSON.parse(readFileSync(new URL('./data/claims-r-cases.json', import.meta.url), 'utf8')) as {
  readonly cases: readonly Case[]
}

test.each(cases)('$name', ({ plan, level, margin, marginLevel, step, nested, rows, claims }) => {
  const answer = acceptance(
    rows.taster.map((taster, i) => ({ taster, cup: rows.cup[i] ?? '', score: rows.score[i] ?? null })),
    { ...plan, level, margin, marginLevel, replicated: nested, ...(step === null ? {} : { step }) },
  )
  expect(answer.plan).toEqual({ plan: plan.plan, pairs: claims.length, level })
  expect(answer.claims.map(({ a, b, tasters, claim, byMargin }) => ({ a, b, tasters, claim, byMargin }))).toEqual(
    claims.map(({ a, b, tasters, claim, byMargin = null }) => ({ a, b, tasters, claim, byMargin })),
  )
  const scale = Math.max(1, ...claims.map(({ se }) => se))
  answer.claims.forEach((got, i) => {
    const want = claims[i]
    const near = (key: 'difference' | 'se' | 'low' | 'high' | 'lowMargin' | 'highMargin', within: number) =>
      expect(Math.abs((got[key] ?? NaN) - (want?.[key] ?? NaN)), `${got.a} − ${got.b} ${key}`).toBeLessThan(
        within * scale,
      )
    near('difference', 1e-6)
    near('se', 1e-5)
    expect(Math.abs((got.df ?? NaN) / (want?.df ?? NaN) - 1)).toBeLessThan(1e-4)
    // below two degrees of freedom the quantile carries the last digits of df many times over
    const ends = (want?.df ?? 0) > 2 ? 1e-4 : 0.05
    near('low', ends)
    near('high', ends)
    near('lowMargin', ends)
    near('highMargin', ends)
  })
})
