import { expect, test } from 'vitest'
import { comparePairs } from '@/lib/stats/rank/ranked-pair'

test('complete ranks: one standard error √(n k (k + 1) / 6), the sign test over those who differ', () => {
  const { se, list } = comparePairs(
    ['x', 'y', 'z'],
    [
      [1, 2, 3],
      [1, 3, 2],
      [1.5, 1.5, 3],
    ],
    true,
  )
  expect(se).toBeCloseTo(Math.sqrt(6), 12)
  expect(list[0]).toMatchObject({ a: 'x', b: 'y', rankSumDifference: -3, signTest: 0.5 })
})

test('a pair that nobody met both of is compared through the others', () => {
  const { se, list } = comparePairs(
    ['x', 'y', 'z'],
    [
      [1, 2, null],
      [null, 1, 2],
    ],
    false,
  )
  expect(se).toBeNull()
  // Var = ½ (1 − ½) twice; centred sums −½ and +½
  expect(list[1]).toMatchObject({ a: 'x', b: 'z', rankSumDifference: -1, signTest: 1 })
})
