import { expect, test } from 'vitest'
import { checkAim, sawToothNote, smallestGrowing, smallestSawToothed } from '@/lib/stats/plan/power'

test('the smallest n of a growing power is found by halving, not by stepping', () => {
  let asked = 0
  const power = (n: number) => {
    asked++
    return 1 - 1 / n
  }
  expect(smallestGrowing(power, 0.9, 2)).toBe(10)
  expect(smallestGrowing(power, 0.99999, 2)).toBe(100_000)
  expect(asked).toBeLessThan(80)
})

test('a power that is reached at the least n at once stays there', () => {
  expect(smallestGrowing(() => 0.95, 0.9, 2)).toBe(2)
})

test('a power nobody can reach is refused, naming it', () => {
  expect(() => smallestGrowing(() => 0.5, 0.9, 2)).toThrow(/1000000 tasters reaches power 0.9/)
})

test('a saw-toothed power gives the first n and the n from which on it holds', () => {
  // rises by 0.01 each n and falls by 0.045 at every fifth
  const power = (n: number) => Math.min(1, 0.01 * n - 0.009 * 5 * Math.floor(n / 5) * 0.5)
  const values = Array.from({ length: 400 }, (_, i) => power(i + 1))
  const first = values.findIndex((p) => p >= 0.8) + 1
  const lastBelow = values.findLastIndex((p) => p < 0.8) + 1
  expect(lastBelow).toBeGreaterThan(first)
  expect(smallestSawToothed(power, 0.8, 1, 5)).toEqual({ first, forGood: lastBelow + 1 })
})

test('the note says from which n on the power holds', () => {
  expect(sawToothNote(40, 42, 0.8)).toContain('only from 42 on')
  expect(sawToothNote(16, 16, 0.8)).toContain('from 16 tasters on')
})

test.each([{ power: 0 }, { power: 1 }, { power: Number.NaN }, { n: 1 }, { n: 2.5 }, { n: 2_000_000 }])(
  'an aim of %o is refused',
  (aim) => {
    expect(() => checkAim(aim, 2)).toThrow(RangeError)
  },
)
