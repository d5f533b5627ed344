import { expect, test } from 'vitest'
import { deviancePart, exponentialBeyondLine, stirlingRemainder } from '@/lib/stats/distribution/stirling'

test('the remainder of 1 and of 20 follow from the factorials', () => {
  expect(stirlingRemainder(1)).toBeCloseTo(1 - 0.5 * Math.log(2 * Math.PI), 14)
  const logFactorial19 = Math.log(121645100408832000)
  expect(stirlingRemainder(20)).toBeCloseTo(
    logFactorial19 - (19.5 * Math.log(20) - 20 + 0.5 * Math.log(2 * Math.PI)),
    13,
  )
})

test('the two ways meet where one takes over from the other', () => {
  expect(Math.abs(stirlingRemainder(15.999999) - stirlingRemainder(16.000001))).toBeLessThan(1e-8)
  expect(stirlingRemainder(Infinity)).toBe(0)
})

test('the exponential beyond its line: series near 0, plain further out', () => {
  expect(exponentialBeyondLine(1e-9)).toBeCloseTo(5e-19, 27)
  expect(exponentialBeyondLine(0.2) / (Math.expm1(0.2) - 0.2)).toBeCloseTo(1, 13)
  expect(exponentialBeyondLine(-3)).toBeCloseTo(Math.exp(-3) + 2, 14)
})

test('the deviance part is 0 at its centre and its logarithmic formula far from it', () => {
  expect(deviancePart(7, 7)).toBe(0)
  expect(deviancePart(0, 3)).toBe(3)
  expect(deviancePart(10, 2)).toBeCloseTo(10 * Math.log(5) - 8, 13)
  expect(deviancePart(1e6, 1e6 + 1) / (0.5 / 1e6)).toBeCloseTo(1, 5)
})

test('Stirling’s remainder of 0 is refused', () => {
  expect(() => stirlingRemainder(0)).toThrow(/got 0/)
})
