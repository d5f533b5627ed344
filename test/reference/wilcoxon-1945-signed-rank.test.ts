/**
 * Printed   Hollander & Wolfe, depression scores (R help of wilcox.test: V = 40, one-sided p 0.01953); Darwin's maize, V = 96.
 * Made      data/signed_rank.json: R 4.2.2, own convolution, coin 1.4.2 and exactRankTests 0.8.35 agree;
 *           make/ranks-and-choices.R: every choice of signs counted.
 * Within    1e-12
 */
import { expect, test } from 'vitest'
import { signTest } from '@/lib/stats/choice/sign-test'
import { signedRank } from '@/lib/stats/rank/signed-rank'
import { expectNear } from '../support/near'
import published from './data/signed_rank.json'
import made from './data/ranks-and-choices.json'

test.each(Object.entries(published.values.examples))('%s: Pratt’s statistic, its p and the sign test', (_, example) => {
  const { statistic, p, exact } = signedRank(example.d)
  expect(statistic).toBe(example.pratt.V)
  expect(exact).toBe(example.n - example.zeros <= 50)
  expectNear(p, exact ? example.pratt.exact_two : example.pratt_p_normal, 1e-12)
  expectNear(signTest(example.sign.pos, example.sign.neg), example.sign.p_two, 1e-12)
})

test('the depression scores give the printed one-sided p, doubled', () => {
  const { statistic, p } = signedRank(published.values.examples.depression_HW.d)
  expect(statistic).toBe(40)
  expect((p / 2).toFixed(5)).toBe('0.01953')
})

test.each(made.cases.signedRank.map((one, i) => ({ ...one, i })))(
  'constructed case $i agrees with counting in R',
  (one) => {
    const { statistic, p, exact } = signedRank(one.d)
    expect(statistic).toBe(one.statistic)
    expect(exact).toBe(one.d.filter((d) => d !== 0).length <= 50)
    expectNear(p, one.p, 1e-12)
  },
)
