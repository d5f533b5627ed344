import { expect, test } from 'vitest'
import { mean, median, quantile, sampleDeviation, sampleVariance } from '@/lib/stats/describe'

test('the order of readings changes nothing and none of them is changed', () => {
  const readings = Object.freeze([7, 3, 9, 4])
  const turned = [...readings].reverse()
  for (const f of [mean, sampleVariance, sampleDeviation, median]) expect(f(readings)).toBe(f(turned))
  expect(quantile(readings, 0.3)).toBe(quantile(turned, 0.3))
})

test.each([
  [() => mean([]), /at least 1 readings, got 0/],
  [() => mean([1, Infinity]), /got Infinity/],
  [() => sampleVariance([1]), /got 1/],
  [() => median([NaN]), /got NaN/],
  [() => quantile([1, 2], 1.5), /got 1.5/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(RangeError)
  expect(ask).toThrow(message)
})
