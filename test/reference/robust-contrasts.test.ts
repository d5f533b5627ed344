import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { averagedRepeats } from '@/lib/stats/model/averaged-repeats'
import { likingModel } from '@/lib/stats/liking/liking-model'
import { cupDifference, marginalMean } from '@/lib/stats/liking/marginal-mean'
import { pairedDifference } from '@/lib/stats/liking/paired-difference'
import { robustErrors } from '@/lib/stats/model/robust-errors'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { tasterDifferences, tasterMeans } from '@/lib/stats/liking/taster-means'

/**
 * CR2 errors by taster with Satterthwaite degrees of freedom against R's clubSandwich: made-up panels (complete, gaps,
 * incomplete blocks, walk-outs, repeats, sessions, singular fits, one cup dividing its tasters) and five open ones.
 * Made   reference/make/robust-contrasts.R; robust_contrasts.json: clubSandwich 0.5.8 on ham, ergostool and wine.
 * The variances come from two optimisers: errors are compared within 1e-5, degrees of freedom within 1e-4 relative.
 */
interface Case {
  readonly name: string
  readonly nested: boolean
  readonly session: boolean
  readonly rows: {
    readonly taster: readonly string[]
    readonly cup: readonly string[]
    readonly session: readonly string[]
    readonly score: readonly number[]
  }
  readonly means: {
    readonly estimate: readonly number[]
    readonly se: readonly number[]
    readonly df: readonly number[]
  }
  readonly pairs: {
    readonly difference: readonly number[]
    readonly se: readonly number[]
    readonly df: readonly number[]
  }
}
const read = (name: string): string => readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8')
const made = JSON.parse(read('robust-contrasts.json')) as { readonly cases: readonly Case[] }
const known = JSON.parse(read('acceptance-r-cases.json')) as { readonly cases: readonly Case[] }

const SE = 1e-5
const DF = 1e-4

function robustOf(rows: readonly AcceptanceRow[], nested: boolean, session: boolean) {
  const table = scoreTable(rows, session)
  const model = likingModel(table, nested ? 'own variance' : 'none', 'satterthwaite', {
    position: false,
    carryOver: false,
  })
  const { residual, taster, tasterByCup } = model.variance
  const errors = robustErrors(model.design, model.beta, {
    residual: residual ?? 0,
    taster: taster ?? 0,
    tasterByCup: tasterByCup ?? 0,
  })
  if (!errors) throw new Error('no errors')
  return { table, model, errors }
}

function near(got: number | null | undefined, want: number | undefined, relative: number, what: string) {
  expect(Math.abs((got ?? NaN) / (want ?? NaN) - 1), `${what}: got ${got}, R has ${want}`).toBeLessThan(relative)
}

test.each(made.cases)('$name', ({ name, nested, session, means, pairs, ...own }) => {
  const from = 'rows' in own ? own.rows : known.cases.find((one) => one.name === name)?.rows
  const rows = (from?.taster ?? []).map((taster, i) => ({
    taster,
    cup: from?.cup[i] ?? '',
    score: from?.score[i] ?? null,
    session: session ? (from?.session[i] ?? null) : null,
  }))
  const { table, model, errors } = robustOf(rows, nested, session)
  let pair = 0
  table.cups.forEach((cup, a) => {
    const mean = errors(marginalMean(model.design, 'cup', a))
    near(mean.se, means.se[a], SE, `mean of ${cup}`)
    near(mean.df, means.df[a], DF, `mean of ${cup}, df`)
    for (let b = a + 1; b < table.cups.length; b++) {
      const difference = errors(cupDifference(model.design, a, b))
      near(difference.se, pairs.se[pair], SE, `${cup} − ${table.cups[b]}`)
      near(difference.df, pairs.df[pair], DF, `${cup} − ${table.cups[b]}, df`)
      pair++
    }
  })
  expect(pair).toBe(pairs.se.length)
})

interface OpenCase {
  readonly file: string
  readonly cupColumn: string
  readonly model: string
  readonly cups: readonly {
    readonly cup: string
    readonly estimate: number
    readonly se: number
    readonly df: number
  }[]
  readonly pairs: readonly {
    readonly a: string
    readonly b: string
    readonly difference: number
    readonly se: number
    readonly df: number
  }[]
}
const open = JSON.parse(read('robust_contrasts.json')) as { readonly cases: readonly OpenCase[] }

test.each(open.cases)('$file by $cupColumn', ({ file, cupColumn, model: formula, cups, pairs }) => {
  const [header = [], ...lines] = read(file)
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(','))
  const cell = (line: readonly string[], column: string) => line[header.indexOf(column)] ?? ''
  // wine was made over both its attributes: repeats without a variance of their own, for the arithmetic
  const rows = lines.map((line) => ({
    taster: cell(line, 'taster'),
    cup: cell(line, cupColumn),
    score: cell(line, 'score') === '' ? null : Number(cell(line, 'score')),
  }))
  const { table, model, errors } = robustOf(rows, formula.includes('taster:cup'), false)
  for (const { cup, estimate, se, df } of cups) {
    const weights = marginalMean(model.design, 'cup', table.cups.indexOf(cup))
    const got = errors(weights)
    near(table.centre + weights.reduce((sum, w, j) => sum + w * (model.beta[j] ?? 0), 0), estimate, 1e-6, cup)
    near(got.se, se, SE, cup)
    near(got.df, df, DF, `${cup}, df`)
  }
  for (const { a, b, se, df } of pairs) {
    const got = errors(cupDifference(model.design, table.cups.indexOf(a), table.cups.indexOf(b)))
    near(got.se, se, SE, `${a} − ${b}`)
    near(got.df, df, DF, `${a} − ${b}, df`)
  }
})

test('with every taster on every cup once it is the paired t test, to the digit', () => {
  // the paired t test is checked against Student (1908) in student-1908-sleep.test.ts
  const complete = made.cases.filter(
    ({ nested, session, name }) => !nested && !session && /complete|balanced/i.test(name),
  )
  expect(complete.length).toBeGreaterThan(5)
  for (const { name, ...own } of complete) {
    const from = 'rows' in own ? own.rows : known.cases.find((one) => one.name === name)?.rows
    const rows = (from?.taster ?? []).map((taster, i) => ({
      taster,
      cup: from?.cup[i] ?? '',
      score: from?.score[i] ?? null,
    }))
    const { table, model, errors } = robustOf(rows, false, false)
    const means = tasterMeans(table)
    if (!means.complete || means.repeated > 0) continue
    table.cups.forEach((_, a) => {
      for (let b = a + 1; b < table.cups.length; b++) {
        const paired = pairedDifference(tasterDifferences(means, a, b, table.grain), 0.95, table.grain)
        const got = errors(cupDifference(model.design, a, b))
        near(got.se, paired.se ?? NaN, 1e-12, `${name}: ${a} − ${b}`)
        near(got.df, paired.df ?? NaN, 1e-12, `${name}: ${a} − ${b}, df`)
      }
    })
  }
})

test('repeats averaged before fitting and complete cells with equal repeats have the same errors', () => {
  // with the same number of repeats everywhere the means over repeats carry all that is known of the cups
  const each = known.cases.find(({ name }) => name === 'replicatesBalanced')
  const rows = (each?.rows.taster ?? []).map((taster, i) => ({
    taster,
    cup: each?.rows.cup[i] ?? '',
    score: each?.rows.score[i] ?? null,
  }))
  const { table, model, errors } = robustOf(rows, true, false)
  const averaged = averagedRepeats(model.design, () => 0)
  const { taster, tasterByCup, residual } = model.variance
  const other = robustErrors(averaged, model.beta, {
    residual: (tasterByCup ?? 0) + (residual ?? 0) / 2,
    taster: taster ?? 0,
    tasterByCup: 0,
  })
  for (let b = 1; b < table.cups.length; b++) {
    const [one, two] = [errors(cupDifference(model.design, 0, b)), other?.(cupDifference(model.design, 0, b))]
    near(two?.se, one.se, 1e-12, 'se')
    near(two?.df, one.df ?? NaN, 1e-12, 'df')
  }
})
