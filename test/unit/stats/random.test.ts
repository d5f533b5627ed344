import { describe, expect, test } from 'vitest'
import { seededRandom } from '@/lib/stats/random'

/** Upper 0.001 points of chi-squared, NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4. */
const CHI_SQUARED_999: Readonly<Record<number, number>> = { 5: 20.515, 9: 27.877, 23: 49.728 }

function chiSquared(counts: readonly number[]): number {
  const expected = counts.reduce((sum, count) => sum + count, 0) / counts.length
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0)
}

describe('seededRandom', () => {
  test('seed 42 throws the dice 2, 4, 6, as printed in the manual of pure-rand 8 (README, "Simple usage")', () => {
    const random = seededRandom(42)
    expect([1, 2, 3].map(() => 1 + random.below(6))).toEqual([2, 4, 6])
  })

  test('one seed gives one sequence', () => {
    const draw = (seed: number) => {
      const random = seededRandom(seed)
      return [random.unit(), random.below(1000), random.shuffle([1, 2, 3, 4, 5, 6, 7, 8]), random.unit()]
    }
    expect(draw(7)).toEqual(draw(7))
    expect(draw(7)).not.toEqual(draw(8))
    expect(draw(-1)).toEqual(draw(2 ** 32 - 1))
  })

  test.each([6, 10, 24])('whole numbers below %i come equally often', (n) => {
    const random = seededRandom(20)
    const counts = Array<number>(n).fill(0)
    for (let draw = 0; draw < 24_000; draw += 1) {
      const value = random.below(n)
      counts[value] = (counts[value] ?? NaN) + 1
    }
    expect(chiSquared(counts)).toBeLessThan(CHI_SQUARED_999[n - 1] ?? NaN)
  })

  test('fractions lie in [0, 1) and fill ten equal bins equally', () => {
    const random = seededRandom(3)
    const counts = Array<number>(10).fill(0)
    for (let draw = 0; draw < 20_000; draw += 1) {
      const unit = random.unit()
      expect(unit >= 0 && unit < 1).toBe(true)
      const bin = Math.floor(unit * 10)
      counts[bin] = (counts[bin] ?? NaN) + 1
    }
    expect(chiSquared(counts)).toBeLessThan(CHI_SQUARED_999[9] ?? NaN)
  })

  test('all 24 orders of four things come equally often, and the list given is left alone', () => {
    const random = seededRandom(11)
    const list = Object.freeze(['a', 'b', 'c', 'd'])
    const counts = new Map<string, number>()
    for (let draw = 0; draw < 12_000; draw += 1) {
      const order = random.shuffle(list).join('')
      counts.set(order, (counts.get(order) ?? 0) + 1)
    }
    expect(counts.size).toBe(24)
    expect(chiSquared([...counts.values()])).toBeLessThan(CHI_SQUARED_999[23] ?? NaN)
  })

  test.each([1.5, NaN, Infinity, 2 ** 32, -(2 ** 31) - 1])('a seed of %d is refused by name', (seed) => {
    expect(() => seededRandom(seed)).toThrow(new RangeError(`a seed must be a whole number of 32 bits, got ${seed}`))
  })

  test.each([0, -1, 2.5, NaN])('a number below %d cannot be drawn', (n) => {
    expect(() => seededRandom(1).below(n)).toThrow(RangeError)
  })
})
