import { expect, test } from 'vitest'
import { solveBetween, solveMonotone } from '@/lib/stats/distribution/solve'

test('a rising and a falling function are solved from a poor start', () => {
  const cube = (x: number) => ({ value: x ** 3 - 8, slope: 3 * x * x })
  expect(solveMonotone(cube, -5)).toBeCloseTo(2, 14)
  const fall = (x: number) => ({ value: Math.exp(-x) - 0.001, slope: -Math.exp(-x) })
  expect(solveMonotone(fall, 0)).toBeCloseTo(Math.log(1000), 13)
})

test('a tail that underflows to −∞ is searched by halving', () => {
  const f = (x: number) => ({ value: x < 3 ? -Infinity : Math.log(x - 2.5), slope: x < 3 ? NaN : 1 / (x - 2.5) })
  expect(solveMonotone(f, 2.9)).toBeCloseTo(3.5, 12)
})

test('no crossing gives the end of the line', () => {
  expect(solveMonotone((x) => ({ value: -1 / (1 + Math.exp(x)) - 1, slope: 1e-9 }), 0)).toBe(Infinity)
})

test('what is not a number is refused, naming the place', () => {
  expect(() => solveMonotone(() => ({ value: NaN, slope: 1 }), 2)).toThrow(/not a number at 2/)
  expect(() => solveMonotone(() => ({ value: 1, slope: 1 }), Infinity)).toThrow(/got Infinity/)
})

test('between two ends no slope is needed', () => {
  expect(solveBetween((x) => x ** 5 - 2, 0, 3)).toBeCloseTo(2 ** 0.2, 13)
  expect(solveBetween((p) => 3 * Math.log(p) + 4, 0, 1)).toBeCloseTo(Math.exp(-4 / 3), 13)
  expect(() => solveBetween((x) => x, 1, 2)).toThrow(/no crossing between 1/)
})
