/**
 * Made      data/jar_penalty.json and make/ranks-and-choices.R: t.test without equal variances, R 4.2.2; the readings are invented.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { jar, type LikingDrop } from '@/lib/stats/liking/just-about-right'
import { expectAllNear, expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/jar_penalty.json'
import made from './data/ranks-and-choices.json'

test('sweetness of forty-eight tasters', () => {
  const rows = readReferenceTable('jar_example.csv').map((row) => ({
    attribute: Number(row.jar_sweet),
    liking: Number(row.liking9),
  }))
  const answer = jar(rows, { level: 0.95 })
  const { n, means, too_little, too_much } = published.values
  expect(answer.justRight).toEqual({ n: n.jar, mean: means.jar })
  const sides: [LikingDrop | null, typeof too_little][] = [
    [answer.tooLittle, too_little],
    [answer.tooMuch, too_much],
  ]
  for (const [side, reference] of sides) {
    expectNear(side?.share, reference.share, 1e-12)
    expectNear(side?.meanDrop, reference.mean_drop, 1e-12)
    expectNear(side?.df, reference.welch_df, 1e-9)
    expectNear(side?.p, reference.welch_p, 1e-9)
    expectAllNear(side?.interval, reference.welch_ci, 1e-9)
  }
  // The identity of mean drops: overall mean = just-right mean − Σ share × drop.
  const lost = sides.reduce((sum, [side]) => sum + (side?.share ?? 0) * (side?.meanDrop ?? 0), 0)
  expectNear((answer.justRight?.mean ?? 0) - lost, published.values.overall_mean, 1e-12)
})

test('the constructed answers agree with t.test at 90 %', () => {
  const { attribute, liking, level, tooLittle, tooMuch } = made.cases.jar
  const answer = jar(
    attribute.map((point, i) => ({ attribute: point, liking: liking[i] ?? null })),
    { level },
  )
  for (const [side, reference] of [
    [answer.tooLittle, tooLittle],
    [answer.tooMuch, tooMuch],
  ] as const) {
    expect(side?.n).toBe(reference.n)
    expectNear(side?.meanDrop, reference.meanDrop, 1e-12)
    expectNear(side?.se, reference.se, 1e-9)
    expectNear(side?.df, reference.df, 1e-9)
    expectNear(side?.p, reference.p, 1e-9)
    expectAllNear(side?.interval, reference.interval, 1e-9)
  }
})
