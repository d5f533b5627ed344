/** 20 of 30 correct: d-prime and its standard error by R 4.2.2 (data/disc_dprime.json's method), within 1e-5. */
import { expect, test } from 'vitest'
import { dPrimeError, dPrimeOf, shareError } from '@/lib/stats/difference/d-prime'
import { psychometric } from '@/lib/stats/difference/psychometric'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'

test.each([
  ['triangle', 2.32138, 0.46035],
  ['tetrad', 1.58779, 0.29649],
  ['three-afc', 1.1159, 0.30824],
  ['duo-trio', 1.51885, 0.50619],
  ['two-afc', 0.60914, 0.33475],
] as const)('%s, 20 of 30', (protocol, d, se) => {
  const found = dPrimeOf(protocol, 20 / 30) ?? Number.NaN
  expect(Math.abs(found - d)).toBeLessThan(1e-5)
  expect(Math.abs((dPrimeError(protocol, 20 / 30, shareError(20 / 30, 30)) ?? Number.NaN) - se)).toBeLessThan(1e-5)
})

test('it turns the share correct back', () => {
  for (const protocol of PROTOCOLS) {
    for (const d of [0.3, 1, 2.5]) expect(dPrimeOf(protocol, psychometric(protocol, d).share)).toBeCloseTo(d, 6)
  }
})
