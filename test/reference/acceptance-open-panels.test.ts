import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { acceptance, type AcceptanceRow } from '@/lib/stats/liking/acceptance'

/**
 * Open panels: consumers on ham (Næs, Brockhoff and Tomić 2010; R package lmerTest), effort of rising from stools
 * (Wretenberg, Arborelius and Lindberg 1993; R package nlme), Student's sleep (1908).
 * Values made with R 4.2.2, lme4 1.1.31, lmerTest 3.1.3, pbkrtest 0.5.2, emmeans 1.8.4.1: the JSON beside the CSV.
 */
type Row = Readonly<Record<string, string>>
interface Term {
  readonly [key: string]: number | string
}
interface Model {
  readonly reml_criterion: number
  readonly varcomp: readonly { readonly vcov: number }[]
  readonly anova3_satterthwaite: readonly Term[]
  readonly anova3_kenward_roger: readonly Term[]
  readonly [table: string]: unknown
}

const file = (name: string) => readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8')
const csv = (name: string): Row[] => parse(file(name), { columns: true, comment: '#' })
const values = (name: string): Record<string, unknown> =>
  (JSON.parse(file(name)) as { values: Record<string, unknown> }).values
const rowsOf = (name: string, cup = 'cup'): AcceptanceRow[] =>
  csv(name).map((row) => ({ taster: row['taster'] ?? '', cup: row[cup] ?? '', score: Number(row['score']) }))

function near(got: number | null | undefined, want: unknown, within: number, what: string) {
  const off = Math.abs((got ?? NaN) - Number(want)) / Math.max(1, Math.abs(Number(want)))
  expect(off, `${what}: got ${got}, R has ${want}`).toBeLessThan(within)
}

function compare(rows: readonly AcceptanceRow[], model: Model, factor: string) {
  for (const df of ['satterthwaite', 'kenward-roger'] as const) {
    const got = acceptance(rows, { level: 0.95, df })
    const short = df === 'satterthwaite' ? 'satt' : 'kr'
    const [test] = df === 'satterthwaite' ? model.anova3_satterthwaite : model.anova3_kenward_roger
    near(got.model.remlCriterion, model.reml_criterion, 1e-8, 'criterion')
    near(got.model.variance.taster, model.varcomp[0]?.vcov, 1e-5, 'taster variance')
    near(got.model.variance.residual, model.varcomp.at(-1)?.vcov, 1e-5, 'residual variance')
    near(got.overall.F, test?.['F value'], 1e-6, 'F')
    near(got.overall.df2, test?.['DenDF'], 1e-5, 'df')
    near(got.overall.p, test?.['Pr(>F)'], 1e-6, 'p')
    const means = model[`emm_${short}_${factor}`] as readonly Term[]
    got.cups.forEach((cup, i) => {
      near(cup.estimate, means[i]?.['emmean'], 1e-6, cup.cup)
      near(cup.se, means[i]?.['SE'], 1e-6, cup.cup)
      near(cup.df, means[i]?.['df'], 1e-5, cup.cup)
      near(cup.interval?.[0], means[i]?.['lower.CL'], 1e-6, cup.cup)
    })
    const tukey = model[`pairs_tukey_${short}_${factor}`] as readonly Term[]
    got.pairs.forEach((pair, i) => {
      near(pair.difference, tukey[i]?.['estimate'], 1e-6, `${pair.a} ${pair.b}`)
      near(pair.se, tukey[i]?.['SE'], 1e-6, `${pair.a} ${pair.b}`)
      near(pair.df, tukey[i]?.['df'], 1e-5, `${pair.a} ${pair.b}`)
      near(pair.intervalTukey?.[0], tukey[i]?.['lower.CL'], 1e-6, `${pair.a} ${pair.b} Tukey`)
      near(pair.pTukey, tukey[i]?.['p.value'], 1e-6, `${pair.a} ${pair.b} Tukey`)
    })
    if (df === 'satterthwaite') {
      const holm = model[`pairs_holm_satt_${factor}`] as readonly Term[]
      got.pairs.forEach((pair, i) => near(pair.pHolm, holm[i]?.['p.value'], 1e-6, `${pair.a} ${pair.b} Holm`))
    }
  }
}

test('ham in blocks of three of eight agrees with R in every marginal mean and pair', () => {
  compare(rowsOf('ham_blocks3of8.csv'), values('ham_blocks3of8.json')['mixed_random_taster'] as Model, 'cup')
})

test('stools tried by everybody agree with R in every marginal mean and pair', () => {
  compare(rowsOf('ergostool.csv'), values('ergostool.json')['model'] as Model, 'Type')
})

test('two drugs are one paired t: the model and the differences say the same', () => {
  const rows = rowsOf('sleep.csv')
  compare(rows, values('sleep_mixed.json')['model'] as Model, 'group')
  const [pair] = acceptance(rows, { level: 0.95 }).pairs
  // R's t.test and exact signed rank with Pratt's zeros: t_intervals_effects.json, signed_rank.json; 1e-6
  near(pair?.paired?.t, -4.06212768, 1e-8, 'paired t')
  near(pair?.paired?.interval?.[0], -2.4598858, 1e-7, 'paired interval')
  near(pair?.signedRank?.p, 0.00390625, 1e-12, 'signed rank')
  near(pair?.t, pair?.paired?.t, 1e-8, 'model t')
})

test('ham with both informations as cups has the variances of the two-factor model, complete and with gaps', () => {
  for (const name of ['ham_complete', 'ham_incomplete']) {
    const model = values(`${name}.json`)['mixed_random_taster'] as Model
    const rows = csv(name === 'ham_complete' ? 'ham.csv' : 'ham_incomplete.csv')
    const cups = rows.map((row) => ({
      taster: row['taster'] ?? '',
      cup: row['cup'] ?? '',
      score: Number(row['score']),
    }))
    const got = acceptance(cups, { level: 0.95 })
    near(got.model.remlCriterion, model.reml_criterion, 1e-8, 'criterion')
    near(got.model.variance.taster, model.varcomp[0]?.vcov, 1e-5, 'taster')
    near(got.model.variance.residual, model.varcomp[1]?.vcov, 1e-5, 'residual')
    const means = model['emm_satt_Product_Information'] as readonly Term[]
    // R runs through the products first, then the informations
    got.cups.forEach((cup, i) => near(cup.estimate, means[Math.floor(i / 2) + 4 * (i % 2)]?.['emmean'], 1e-5, cup.cup))
  }
})

test('a taster’s two servings of one ham are not independent: with their own variance p is eighty times larger', () => {
  const rows = rowsOf('ham.csv', 'product')
  const got = acceptance(rows, { level: 0.95 })
  expect(got.model.formula).toBe('score ~ cup + (1 | taster) + (1 | taster:cup)')
  // README of the reference set, surprise 1: P1–P2 Tukey 0.0137 without, 0.115 with the variance of taster by product
  expect(got.pairs[0]?.pTukey).toBeGreaterThan(0.1)
})
