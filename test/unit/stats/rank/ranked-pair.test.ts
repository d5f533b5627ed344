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

test('the sign test of each pair asks of its two cups alone, and Holm is over all pairs', () => {
  // B above A 7 of 8, above C 8 of 8, A above C 5 of 8; p by R's binom.test 0.0703125, 0.0078125, 0.7265625
  const ranks = [...Array<number[]>(4).fill([2, 1, 3]), ...Array<number[]>(3).fill([3, 1, 2]), [1, 2, 3]]
  const { list } = comparePairs(['A', 'B', 'C'], ranks, true)
  expect(list.map(({ a, b, likedA, likedB }) => `${a}${b} ${likedA} ${likedB}`)).toEqual(['AB 1 7', 'AC 5 3', 'BC 8 0'])
  expect(list.map(({ signHolm }) => signHolm)).toEqual([0.140625, 0.7265625, 0.0234375])
})
