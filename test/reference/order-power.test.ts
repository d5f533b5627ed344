/**
 * How often a panel of orders finds its best cup, and what constructed panels of orders say.
 * Made   make/order-panels.R: R's own panels, 20 000 of each kind, orders drawn stage by stage (sample, prob), pchisq, binom.test,
 *        p.adjust; friedman.test and, for the exact p, every order of every taster, R 4.2.2. With two cups, pbinom.
 * Within four simulation errors of both together; 1e-9 for the constructed panels.
 */
import { describe, expect, test } from 'vitest'
import { playOrders } from '@/lib/stats/plan/rank-power'
import { ranking } from '@/lib/stats/rank/ranking'
import { expectAllNear, expectNear } from '../support/near'
import made from './data/order-panels.json'

const PANELS = 4000
const within = (share: number) => 4 * Math.sqrt(Math.max(share * (1 - share), 1e-4) * (1 / PANELS + 1 / made.panels))

test.each(made.power)('$cups cups, $tasters tasters, $share above each other: R’s panels find as many', (row) => {
  const { cups, tasters, share } = row
  const ours = playOrders({ cups, tasters, share, alpha: 0.05, seed: 8 }, PANELS)
  for (const what of ['alone', 'misled', 'differ'] as const)
    expect(Math.abs(ours[what] - row[what]), what).toBeLessThan(within(row[what]))
})

test('of two cups it is the exact two-sided test, but for the first test’s chi-squared', () => {
  // R: pbinom(17, 24, .65, lower.tail = FALSE) and pbinom(6, 24, .65): 18 of 24, at which chi-squared is 6, p 0.0143
  const { alone, misled } = playOrders({ cups: 2, tasters: 24, share: 0.65, alpha: 0.05, seed: 8 }, PANELS)
  expect(Math.abs(alone - 0.21055184598416)).toBeLessThan(4 * Math.sqrt((0.21 * 0.79) / PANELS))
  expect(misled).toBeLessThan(0.001)
})

describe.each(Object.entries(made.held))('the constructed panel “%s”', (_, held) => {
  const cups = 'ABCDEF'.slice(0, held.cups).split('')
  const rows = held.orders
    .flatMap((order, at) => Array<string>(held.times[at] ?? 0).fill(order))
    .flatMap((order, taster) => cups.map((cup) => ({ taster: `t${taster}`, cup, rank: order.indexOf(cup) + 1 })))
  const answer = ranking(rows, { level: 0.95 })
  test('Friedman, by chi-squared and exact', () => {
    expectNear(answer.friedman?.chiSquared, held.chiSquared, 1e-9)
    expectNear(answer.friedman?.p, held.p, 1e-9)
    expectNear(answer.friedman?.pExact, held.pExact, 1e-9)
  })
  test('firsts and mean places', () => {
    expect(answer.cups.map(({ firsts }) => firsts)).toEqual(held.firsts)
    expectAllNear(
      answer.cups.map(({ meanRank }) => meanRank),
      held.meanRank,
      1e-9,
    )
  })
  test('pairs: who liked which more, the sign test, and Holm over all', () => {
    expect(answer.pairs.map(({ likedA }) => likedA)).toEqual(held.liked)
    expectAllNear(
      answer.pairs.map(({ signTest }) => signTest),
      held.sign,
      1e-9,
    )
    expectAllNear(
      answer.pairs.map(({ signHolm }) => signHolm),
      held.holm,
      1e-9,
    )
  })
})
