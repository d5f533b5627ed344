import { expect, test } from 'vitest'
import { normals, onScale } from '@/lib/stats/plan/played-scores'
import { seededRandom } from '@/lib/stats/random'

test.each([
  [5.4, 1, 5],
  [5.5, 1, 6],
  [-3, 1, 1],
  [12, 1, 9],
  [5.3, 0.5, 5.5],
])('%d is scored in steps of %d as %d', (score, step, given) => {
  expect(onScale(score, step)).toBe(given)
})

test('deviates are those of the normal distribution, as far as so many tell', () => {
  const normal = normals(seededRandom(1))
  const n = 40_000
  const drawn = Array.from({ length: n }, normal)
  const mean = (of: (x: number) => number) => drawn.reduce((sum, x) => sum + of(x), 0) / n
  // moments 0, 1, 0, 3 (closed form), each within four of its own errors √(variance / n): variances 1, 2, 15, 96
  const give = (variance: number) => 4 * Math.sqrt(variance / n)
  expect(Math.abs(mean((x) => x))).toBeLessThan(give(1))
  expect(Math.abs(mean((x) => x ** 2) - 1)).toBeLessThan(give(2))
  expect(Math.abs(mean((x) => x ** 3))).toBeLessThan(give(15))
  expect(Math.abs(mean((x) => x ** 4) - 3)).toBeLessThan(give(96))
})
