import fc from 'fast-check'
import { expect, test } from 'vitest'
import { fiellerInterval } from '@/lib/stats/dose/fieller'

test('without any error it is the turning point itself', () => {
  const ends = fiellerInterval({ b1: 6, b2: -0.5, v11: 0, v12: 0, v22: 0 }, 2)
  expect(ends?.[0]).toBeCloseTo(6, 12)
  expect(ends?.[1]).toBeCloseTo(6, 12)
})

test('both ends lie on the boundary of the test, the turning point between them', () => {
  const size = fc.double({ min: 0.01, max: 0.2, noNaN: true })
  fc.assert(
    fc.property(fc.double({ min: -9, max: 9, noNaN: true }), size, size, (b1, s1, s2) => {
      const [b2, t] = [-1, 2]
      const curve = { b1, b2, v11: s1 ** 2, v12: 0.3 * s1 * s2, v22: s2 ** 2 }
      const ends = fiellerInterval(curve, t)
      for (const x of ends ?? [NaN]) {
        const left = (b1 + 2 * b2 * x) ** 2
        const right = t * t * (curve.v11 + 4 * x * curve.v12 + 4 * x * x * curve.v22)
        expect(Math.abs(left - right)).toBeLessThan(1e-9 * (1 + left + right))
      }
      expect(ends?.[0]).toBeLessThan(-b1 / (2 * b2) + 1e-12)
      expect(ends?.[1]).toBeGreaterThan(-b1 / (2 * b2) - 1e-12)
    }),
  )
})

test('a bend that does not differ from 0 bounds nothing', () => {
  expect(fiellerInterval({ b1: 1, b2: -0.1, v11: 0.1, v12: 0, v22: 0.01 }, 2)).toBeNull()
})
