import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  anytime,
  clopperPearson,
  clopperPearsonLower,
  clopperPearsonUpper,
  meanInterval,
  wilson,
} from '@/lib/stats/interval'
import { binomialLower, binomialUpper } from '@/lib/stats/distribution/binomial'

const counts = fc.integer({ min: 1, max: 400 }).chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)))
const level = fc.double({ min: 0.5, max: 0.999, noNaN: true })

test('every interval of a share holds the share, lies in [0, 1] and mirrors when right and wrong change places', () => {
  fc.assert(
    fc.property(counts, level, ([x, n], level) => {
      for (const make of [clopperPearson, wilson, anytime]) {
        const [low, high] = make(x, n, level)
        expect(low).toBeLessThanOrEqual(x / n + 1e-12)
        expect(high).toBeGreaterThanOrEqual(x / n - 1e-12)
        expect(low).toBeGreaterThanOrEqual(-1e-15)
        expect(high).toBeLessThanOrEqual(1 + 1e-15)
        const [mirrorLow, mirrorHigh] = make(n - x, n, level)
        expect(Math.abs(mirrorLow - (1 - high))).toBeLessThan(1e-12)
        expect(Math.abs(mirrorHigh - (1 - low))).toBeLessThan(1e-12)
      }
    }),
  )
})

test('at the exact ends the binomial tails are what the level leaves', () => {
  fc.assert(
    fc.property(counts, level, ([x, n], level) => {
      const [low, high] = clopperPearson(x, n, level)
      if (x > 0) expect(Math.abs(binomialUpper(x - 1, n, low) - (1 - level) / 2)).toBeLessThan(1e-10)
      if (x < n) expect(Math.abs(binomialLower(x, n, high) - (1 - level) / 2)).toBeLessThan(1e-10)
    }),
  )
})

test('nobody and everybody give ends of exactly 0 and 1', () => {
  for (const make of [clopperPearson, wilson, anytime]) {
    expect(make(0, 7, 0.95)[0]).toBe(0)
    expect(make(7, 7, 0.95)[1]).toBe(1)
  }
})

test('before the first answer every share is possible', () => {
  expect(anytime(0, 0, 0.95)).toEqual([0, 1])
})

test('the interval that holds at any time is wider than the exact one', () => {
  const [low, high] = anytime(18, 30, 0.95)
  const [exactLow, exactHigh] = clopperPearson(18, 30, 0.95)
  expect(low).toBeLessThan(exactLow)
  expect(high).toBeGreaterThan(exactHigh)
})

test('one-sided limits at 97.5 % are the ends of the 95 % interval', () => {
  expect([clopperPearsonLower(12, 30, 0.975), clopperPearsonUpper(12, 30, 0.975)]).toEqual(clopperPearson(12, 30, 0.95))
})

test('a constant moves the interval of a mean and a factor stretches it', () => {
  const readings = Object.freeze([5, 7, 6, 8, 4, 7])
  const { interval, mean } = meanInterval(readings, 0.9)
  const moved = meanInterval(
    readings.map((x) => 2 * x + 100),
    0.9,
  )
  expect(Math.abs(moved.mean - (2 * mean + 100))).toBeLessThan(1e-12)
  interval.forEach((end, i) => expect(Math.abs((moved.interval[i] ?? NaN) - (2 * end + 100))).toBeLessThan(1e-10))
})

test('scores that are all the same give an interval of no width', () => {
  expect(meanInterval([6, 6, 6], 0.95)).toMatchObject({ se: 0, interval: [6, 6] })
})

test.each([
  [() => meanInterval([5], 0.95), /two readings, got 1/],
  [() => meanInterval([5, Number.NaN], 0.95), /finite number, got NaN/],
  [() => meanInterval([5, 6], 95), /between 0 and 1, got 95/],
  [() => clopperPearson(4, 3, 0.95), /0 to 3, got 4/],
  [() => wilson(1.5, 3, 0.95), /got 1.5/],
  [() => wilson(0, 0, 0.95), /from 1, got 0/],
  [() => anytime(-1, 3, 0.95), /got -1/],
  [() => anytime(1, 3, 1), /got 1/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(RangeError)
  expect(ask).toThrow(message)
})
