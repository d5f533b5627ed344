import { expect, test } from 'vitest'
import { signTest } from '@/lib/stats/choice/sign-test'
import { chiSquaredUpper } from '@/lib/stats/distribution/chi-squared'
import { fewestForOrders, playOrders } from '@/lib/stats/plan/rank-power'

const plan = { tasters: 24, cups: 4, share: 0.75, alpha: 0.05, seed: 1 }

test('the same seed plays the same panels', () => {
  expect(playOrders(plan, 200)).toEqual(playOrders(plan, 200))
})

test('a larger share, and more tasters, find the best more often', () => {
  const found = (more: object) => playOrders({ ...plan, ...more }, 500).alone
  expect(found({ share: 0.85 })).toBeGreaterThan(found({}))
  expect(found({ tasters: 60 })).toBeGreaterThan(found({}))
})

test('where all cups are alike, no more than one panel in twenty says that any differ', () => {
  const { differ, alone, misled } = playOrders({ ...plan, share: 0.5 }, 2000)
  expect(differ).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / 2000))
  expect(alone + misled).toBeLessThanOrEqual(differ)
})

test('a number outside its range is refused', () => {
  expect(() => playOrders({ ...plan, share: 0.4 }, 10)).toThrow('share')
  expect(() => playOrders({ ...plan, tasters: 0 }, 10)).toThrow('tasters')
  expect(() => playOrders({ ...plan, cups: 1 }, 10)).toThrow('cups')
  expect(() => playOrders(plan, 0)).toThrow('panel')
})

test('the fewest tasters: two cups six, as with two cups always; three seven, six ten', () => {
  expect([2, 3, 4, 5, 6].map((cups) => fewestForOrders(cups, 0.05))).toEqual([6, 7, 8, 9, 10])
  // by hand: one fewer, all of one mind, is above the level after Holm, and that many is not
  for (const cups of [3, 4, 5, 6]) {
    const [n, pairs] = [fewestForOrders(cups, 0.05), (cups * (cups - 1)) / 2]
    expect(pairs * signTest(n, 0)).toBeLessThanOrEqual(0.05)
    expect(pairs * signTest(n - 1, 0)).toBeGreaterThan(0.05)
  }
})

test('what stands above all others by every sign test has a Friedman p below the level, however the others stand', () => {
  for (const cups of [3, 4, 5, 6]) {
    for (let n = fewestForOrders(cups, 0.05); n <= 200; n += 1) {
      // Holm asks least where the pairs without the best come last: of `left` pairs the step is alpha / left
      const left = (cups * (cups - 1)) / 2
      const need = (step: number) => {
        let liked = Math.ceil(n / 2)
        while (liked <= n && signTest(liked, n - liked) > 0.05 / step) liked += 1
        return liked
      }
      const liked = Array.from({ length: cups - 1 }, (_, at) => need(left - at))
      const over = liked.reduce((sum, one) => sum + one, 0)
      const apart = over - (n * (cups - 1)) / 2
      // least Friedman: the others share what the best leaves evenly
      const squares = apart ** 2 + apart ** 2 / (cups - 1)
      expect(chiSquaredUpper((12 * squares) / (n * cups * (cups + 1)), cups - 1)).toBeLessThan(0.05)
    }
  }
})
