/**
 * Power where every taster answers several times. Expected values from R 4.2 (base), test/reference/make/repeated-difference.R,
 * which counts who can tell and lets the others guess: another route than ours, which adds taster after taster.
 * Tolerance 1e-9: both sum the same binomial terms.
 */
import { expect, test } from 'vitest'
import { repeatedPower, tastersForRepeated } from '@/lib/stats/plan/repeated-difference'
import { tastersForDifference } from '@/lib/stats/plan/choice-power'

const alpha = 0.05

test.each([
  ['triangle', 24, 1, 0.3, 13, 0.5504751325],
  ['triangle', 24, 2, 0.3, 22, 0.8434277493],
  ['tetrad', 12, 3, 0.5, 18, 0.9432793332],
  ['two-afc', 20, 2, 0.4, 26, 0.7794623931],
  ['duo-trio', 30, 3, 0.2, 54, 0.5397486352],
  ['three-afc', 18, 2, 0, 18, 0.0283492102],
] as const)('%s: %i tasters, %i answers each, a share of %f who can tell', (protocol, n, each, pd, critical, power) => {
  const plan = repeatedPower({ protocol, pd, each, alpha }, n)
  expect(plan).toMatchObject({ n, answers: n * each, critical })
  expect(plan.power).toBeCloseTo(power, 9)
})

test.each([
  ['triangle', 1, 0.3, 40],
  ['triangle', 2, 0.3, 24],
  ['triangle', 3, 0.3, 16],
  ['duo-trio', 2, 0.4, 21],
] as const)(
  '%s, %i answers each, %f who can tell: %i tasters find it four times out of five',
  (protocol, each, pd, n) => {
    expect(tastersForRepeated({ protocol, pd, each, alpha }, 0.8, 400)?.n).toBe(n)
  },
)

test('with one answer each it is the plan of the simple test', () => {
  const simple = tastersForDifference({ protocol: 'triangle', pd: 0.2, alpha }, { power: 0.8 })
  const found = tastersForRepeated({ protocol: 'triangle', pd: 0.2, each: 1, alpha }, 0.8, 400)
  expect(found).toMatchObject({ n: simple.n, critical: simple.critical })
  expect(found?.power).toBeCloseTo(simple.power, 10)
})

test('what is out of reach is null, what is no plan is refused', () => {
  expect(tastersForRepeated({ protocol: 'triangle', pd: 0.05, each: 2, alpha }, 0.8, 40)).toBeNull()
  expect(() => repeatedPower({ protocol: 'triangle', pd: 2, each: 1, alpha }, 4)).toThrow('0 to 1')
  expect(() => repeatedPower({ protocol: 'triangle', pd: 0.5, each: 0, alpha }, 4)).toThrow('whole number')
  expect(() => repeatedPower({ protocol: 'triangle', pd: 0.5, each: 1, alpha }, 0)).toThrow('tasters')
})
