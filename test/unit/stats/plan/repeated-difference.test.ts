import fc from 'fast-check'
import { expect, test } from 'vitest'
import { PROTOCOLS } from '@/lib/stats/difference/protocol'
import { repeatedPower, tastersForRepeated } from '@/lib/stats/plan/repeated-difference'

const alpha = 0.05

test('where nobody can tell, the chance is the test’s own risk: at most five in a hundred', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...PROTOCOLS),
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 1, max: 3 }),
      (protocol, n, each) => {
        const { power } = repeatedPower({ protocol, pd: 0, each, alpha }, n)
        expect(power).toBeGreaterThanOrEqual(0)
        expect(power).toBeLessThanOrEqual(alpha + 1e-12)
      },
    ),
    { numRuns: 60 },
  )
})

test('where all can tell it is found as soon as any count does it', () => {
  expect(repeatedPower({ protocol: 'triangle', pd: 1, each: 2, alpha }, 2)).toMatchObject({ critical: 4 })
  expect(repeatedPower({ protocol: 'triangle', pd: 1, each: 2, alpha }, 2).power).toBeCloseTo(1, 12)
  expect(repeatedPower({ protocol: 'triangle', pd: 1, each: 1, alpha }, 2)).toMatchObject({ critical: null, power: 0 })
})

test('the more can tell, the likelier it is found', () => {
  const at = (pd: number) => repeatedPower({ protocol: 'duo-trio', pd, each: 3, alpha }, 20).power
  const powers = [0, 0.2, 0.4, 0.6, 0.8, 1].map(at)
  expect(powers).toEqual(powers.toSorted((a, b) => a - b))
})

test('the number found is the first that reaches the power', () => {
  const question = { protocol: 'triangle', pd: 0.4, each: 2, alpha } as const
  const found = tastersForRepeated(question, 0.8, 200)
  expect(found).not.toBeNull()
  for (let n = 1; n < (found?.n ?? 0); n += 1) expect(repeatedPower(question, n).power).toBeLessThan(0.8)
})
