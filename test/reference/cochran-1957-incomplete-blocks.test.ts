/**
 * Trays on which every pair of cups comes together equally often.
 * Printed   Cochran and Cox (1957), Experimental Designs, ch. 11, plans and efficiency factors E = λt / (rk);
 *           Fisher and Yates, Statistical Tables, XVII–XIX
 * Data      data/designs.json (parameters, blocks and efficiencies counted with R 4.2.2); E within 1e-12
 */
import { describe, expect, test } from 'vitest'
import { efficiency } from '@/lib/panel/balance'
import { balancedTrays } from '@/lib/panel/incomplete-block'
import { servingOrders } from '@/lib/panel/order'
import designs from './data/designs.json'

const published = Object.values(designs.values.bib)

describe.each(published)('$t cups, $k per tray, $b trays', ({ t, k, b, r, lambda, efficiency: factor, blocks }) => {
  test('a design with the published numbers is served', () => {
    expect(balancedTrays(t, k)?.length).toBe(b)
    const {
      positionCounts,
      pairCounts,
      efficiency: found,
    } = servingOrders({ cups: t, perTaster: k, tasters: b, seed: 2 })
    expect(positionCounts.map((counts) => counts.reduce((sum, count) => sum + count, 0))).toEqual(Array(t).fill(r))
    for (const [a, counts] of pairCounts.entries()) expect(counts).toEqual(counts.map((_, c) => (a === c ? 0 : lambda)))
    expect(Math.abs(found - factor)).toBeLessThan(1e-12)
  })

  test('twice and three times as many tasters are balanced too', () => {
    for (const times of [2, 3]) {
      const { pairCounts } = servingOrders({ cups: t, perTaster: k, tasters: times * b, seed: times })
      for (const [a, counts] of pairCounts.entries()) {
        expect(counts).toEqual(counts.map((_, c) => (a === c ? 0 : times * lambda)))
      }
    }
  })

  if (blocks)
    test('the published trays have the published efficiency by our count', () => {
      expect(Math.abs(efficiency(blocks ?? [], t) - factor)).toBeLessThan(1e-12)
    })
})

test('every smallest set of parameters up to twelve cups is served in balance', () => {
  for (const { t, k, b, lambda, E } of designs.values.smallest_parameters.filter((one) => one.t <= 12)) {
    const { pairCounts, efficiency: found } = servingOrders({ cups: t, perTaster: k, tasters: b, seed: 4 })
    for (const [a, counts] of pairCounts.entries()) expect(counts).toEqual(counts.map((_, c) => (a === c ? 0 : lambda)))
    expect(Math.abs(found - E)).toBeLessThan(1e-12)
  }
})
