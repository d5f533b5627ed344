/**
 * Holm's adjustment.
 * Made      data/p_adjust.json, R 4.2.2, p.adjust(method = "holm"); tolerance 1e-12
 * Printed   Benjamini and Hochberg (1995), J. R. Stat. Soc. B 57, p. 295: fifteen p values; the count Holm rejects is R's
 */
import { expect, test } from 'vitest'
import reference from './data/p_adjust.json'
import { holm } from '@/lib/stats/multiplicity'

test('six p values become what R makes of them, in any order given', () => {
  const { p, adjusted } = reference.values
  const order = [3, 0, 5, 1, 4, 2]
  const found = holm(order.map((i) => p[i] ?? NaN))
  order.forEach((i, at) => expect(Math.abs((found[at] ?? NaN) - (adjusted[i]?.holm ?? NaN))).toBeLessThan(1e-12))
})

test('of the fifteen printed p values three stay at or below 0.05', () => {
  const { p, n_holm } = reference.values.bh1995
  expect(holm(p).filter((value) => value <= 0.05)).toHaveLength(n_holm)
})
