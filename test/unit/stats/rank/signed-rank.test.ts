import fc from 'fast-check'
import { expect, test } from 'vitest'
import { signedRank } from '@/lib/stats/rank/signed-rank'

const differences = fc.array(fc.integer({ min: -8, max: 8 }), { maxLength: 60 })

test('nobody with a difference means p = 1', () => {
  expect(signedRank([0, 0, 0])).toEqual({ statistic: 0, p: 1, exact: true })
  expect(signedRank([])).toEqual({ statistic: 0, p: 1, exact: true })
})

test('p lies between 0 and 1, and is the same from the other side and on another scale', () => {
  fc.assert(
    fc.property(differences, (list) => {
      const { p, exact } = signedRank(list)
      expect(p > 0 && p <= 1).toBe(true)
      expect(signedRank(list.map((d) => -d)).p).toBe(p)
      expect(signedRank(list.map((d) => d * 0.1).toReversed())).toMatchObject({ p, exact })
    }),
  )
})

test('fifty are exact, fifty-one are not', () => {
  const list = Array.from({ length: 51 }, (_, i) => i + 1)
  expect(signedRank(list.slice(0, 50))).toMatchObject({ exact: true, p: 2 ** -49 })
  expect(signedRank(list).exact).toBe(false)
})

test('the exact and the normal p are near each other for fifty', () => {
  const list = Array.from({ length: 50 }, (_, i) => (i % 3 === 0 ? -1 : 1) * (i + 1))
  const near = signedRank([...list, 51])
  expect(Math.abs(signedRank(list).p - near.p)).toBeLessThan(0.02)
})

test('a difference that is not finite is refused by value', () => {
  expect(() => signedRank([1, Infinity])).toThrow('got Infinity')
})
