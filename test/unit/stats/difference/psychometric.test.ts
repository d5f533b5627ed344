/**
 * Shares correct at d-prime 1, as printed in tables of the Thurstonian models (from memory, three decimals) and recomputed in
 * R 4.2.2 to six (reference README of test/reference/data/disc_dprime.json): within 1e-6.
 */
import { expect, test } from 'vitest'
import { PROTOCOLS, guessingShare } from '@/lib/stats/difference/protocol'
import { psychometric } from '@/lib/stats/difference/psychometric'

test.each([
  ['two-afc', 0.76025],
  ['three-afc', 0.633702],
  ['duo-trio', 0.582475],
  ['triangle', 0.418047],
  ['tetrad', 0.493808],
] as const)('%s at d-prime 1', (protocol, share) => {
  expect(Math.abs(psychometric(protocol, 1).share - share)).toBeLessThan(1e-6)
})

test('without a difference there is only guessing, and more of it is told more often', () => {
  for (const protocol of PROTOCOLS) {
    expect(psychometric(protocol, 0).share).toBeCloseTo(guessingShare(protocol), 12)
    const shares = [0, 0.5, 1, 2, 4, 8].map((d) => psychometric(protocol, d).share)
    expect(shares).toEqual(shares.toSorted((a, b) => a - b))
    expect(shares.at(-1)).toBeLessThanOrEqual(1)
  }
})
