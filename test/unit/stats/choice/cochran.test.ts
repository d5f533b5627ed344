import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cochran } from '@/lib/stats/choice/cochran'
import { signTest } from '@/lib/stats/choice/sign-test'

test('two cups: the exact p is McNemar’s', () => {
  const ticks = fc.array(fc.tuple(fc.integer({ min: 0, max: 1 }), fc.integer({ min: 0, max: 1 })), {
    minLength: 1,
    maxLength: 25,
  })
  fc.assert(
    fc.property(ticks, (rows) => {
      const b = rows.filter(([x, y]) => x > y).length
      const c = rows.filter(([x, y]) => x < y).length
      const { pExact } = cochran(rows)
      if (b + c === 0) expect(pExact).toBeNull()
      else expect(pExact ?? 0).toBeCloseTo(signTest(b, c), 12)
    }),
  )
})

test('nobody who tells the cups apart: nothing to test', () => {
  expect(
    cochran([
      [1, 1, 1],
      [0, 0, 0],
    ]),
  ).toEqual({ Q: null, df: 2, p: null, pExact: null })
  expect(cochran([])).toEqual({ Q: null, df: 0, p: null, pExact: null })
})

test('ticks other than 0 and 1 are refused by value', () => {
  expect(() => cochran([[0, 2]])).toThrow('got 2')
})
