/**
 * Printed   Page (1963), Odeh (1977), ISO 8587: exact 5 % values of L, k = 3: 41 54 66 79 91 104 116 128 for 3 … 10 tasters,
 *           k = 4: 58 84 111 137 163 189 214 for 2 … 8, k = 5: 150 197 244 291 for 3 … 6;
 *           Hollander & Wolfe, cotton, L = 158, z = 2.6558; all of data/page_critical.json recomputed by convolution in R 4.2.2.
 * Made      make/ranks-and-choices.R: every order counted, with ties.
 * Within    1e-12
 */
import { expect, test } from 'vitest'
import { page } from '@/lib/stats/rank/page'
import { expectNear } from '../support/near'
import critical from './data/page_critical.json'
import examples from './data/friedman_examples.json'
import made from './data/ranks-and-choices.json'

/** Tasters who rank in the order expected, but for exchanges of neighbours that each take 1 off L, until L is reached. */
function tastersWith(L: number, n: number, k: number): number[][] {
  const rows = Array.from({ length: n }, () => Array.from({ length: k }, (_, j) => j + 1))
  let spare = (n * k * (k + 1) * (2 * k + 1)) / 6 - L
  for (const row of rows) {
    for (let j = k - 1; j > 0 && spare > 0; j -= 1) {
      for (let i = 0; i < j && spare > 0; i += 1) {
        const [a = 0, b = 0] = [row[i], row[i + 1]]
        if (a > b) continue
        ;[row[i], row[i + 1]] = [b, a]
        spare -= b - a
        if (spare < 0) {
          ;[row[i], row[i + 1]] = [a, b]
          spare += b - a
        }
      }
    }
  }
  expect(spare).toBe(0)
  return rows
}

test.each(critical.values)(
  '$n tasters, $k cups: L at the 5, 1 and 0.1 % points and one below',
  ({ n, k, L05, L01, L001 }) => {
    for (const [L, risk] of [
      [L05, 0.05],
      [L01, 0.01],
      [L001, 0.001],
    ] as const) {
      if (L === null) continue
      const at = page(tastersWith(L, n, k))
      expect(at.L).toBe(L)
      expect(at.pExact).toBeLessThanOrEqual(risk)
      expect(page(tastersWith(L - 1, n, k)).pExact).toBeGreaterThan(risk)
    }
  },
)

test('cotton: L and z as printed', () => {
  const { page_L, page_mean, page_sd_ties } = examples.values.cotton
  const cotton = [
    [7.46, 7.17, 7.76, 8.14, 7.63],
    [7.68, 7.57, 7.73, 8.15, 8.0],
    [7.21, 7.8, 7.74, 7.87, 7.93],
  ]
  const { L, z } = page(cotton)
  expect(L).toBe(158)
  expect(z?.toFixed(4)).toBe('2.6558')
  expectNear(z, (page_L - page_mean) / page_sd_ties, 1e-12)
})

test.each(made.cases.friedman.map((one, i) => ({ ...one, i })))(
  'constructed case $i agrees with counting in R',
  (one) => {
    const { L, z, p, pExact } = page(one.scores)
    expect(L).toBe(one.L)
    expectNear(z, one.z, 1e-12)
    expectNear(p, one.pPage, 1e-12)
    if (one.pPageExact !== null) expectNear(pExact, one.pPageExact, 1e-12)
  },
)
