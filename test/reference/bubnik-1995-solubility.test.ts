/**
 * Solubility of sucrose, g per 100 g of solution.
 * Printed   older handbook table (in Mohos 2010, appendix 2, after Sokolovsky 1958 and Antokolskaya 1964): `OLDER`.
 *           Per 100 g water at 20 °C, newer value 200.7 (Bubnik & Kadlec 1995).
 * Computed  from the cited formula: 64.45, 66.72, 74.26, 82.65 at 0, 20, 60, 100 °C.
 */
import { expect, test } from 'vitest'
import { crystalsAt, sucroseSolubility } from '@/lib/drink/solubility'

const OLDER = [
  [0, 64.18],
  [5, 64.87],
  [10, 65.58],
  [20, 67.09],
  [25, 67.89],
  [30, 68.8],
  [40, 70.42],
  [60, 74.18],
  [80, 78.36],
  [100, 82.97],
] as const

test('it keeps within 0.55 of the older table from 0 to 100 °C, the known spread between tables', () => {
  for (const [celsius, percent] of OLDER) expect(Math.abs(sucroseSolubility(celsius) - percent)).toBeLessThan(0.55)
})

test('100 g of water at 20 °C hold the 200.7 g of the newer table within 0.5', () => {
  const c = sucroseSolubility(20)
  expect(Math.abs((100 * c) / (100 - c) - 200.7)).toBeLessThan(0.5)
})

test('it equals the cited formula as computed', () => {
  for (const [celsius, percent] of [
    [0, 64.45],
    [20, 66.72],
    [60, 74.26],
    [100, 82.65],
  ] as const) {
    expect(Math.abs(sucroseSolubility(celsius) - percent)).toBeLessThan(0.006)
  }
})

test('by the older table too, two to one crystallises at 5 °C and 60 Brix does not', () => {
  expect(200 / 3).toBeGreaterThan(64.87)
  expect(crystalsAt(200 / 3, 5)).toBe('will-crystallise')
  expect(60).toBeLessThan(64.87)
  expect(crystalsAt(60, 5)).toBe('stays-clear')
})
