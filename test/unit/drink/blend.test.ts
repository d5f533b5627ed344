import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { sharesFor } from '@/lib/drink/blend'
import { expectAllNear } from '../../support/near'

test('one part is all of it, whatever the target', () => {
  expect(sharesFor([3, 4], [[1, 1]])).toEqual([1])
})

test('two parts on one figure: the mixing square, and beyond its ends by negative shares', () => {
  // by hand: (2 − 1)/(5 − 1) of the second; (7 − 1)/(5 − 1) of it
  expectAllNear(sharesFor([2], [[1], [5]]), [0.75, 0.25], 1e-12)
  expectAllNear(sharesFor([7], [[1], [5]]), [-0.5, 1.5], 1e-12)
})

test.each([
  ['twice the same part', [[1, 2], [1, 2]]], // prettier-ignore
  ['three parts on a line', [[0, 0], [1, 1], [2, 2]]], // prettier-ignore
  ['more parts than figures can tell', [[0], [1], [2]]], // prettier-ignore
])('%s: several answers are as near, so there is none', (_, parts) => {
  expect(sharesFor([1, 1].slice(0, parts[0]?.length), parts)).toBeNull()
})

const row = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 4, maxLength: 4 })

test('no step along the shares comes nearer', () => {
  fc.assert(
    fc.property(row, fc.array(row, { minLength: 2, maxLength: 4 }), (target, parts) => {
      const shares = sharesFor(target, parts)
      fc.pre(shares !== null && shares.every((share) => Math.abs(share) < 1e3))
      const away = (x: readonly number[]) =>
        target.reduce((all, t, i) => all + (parts.reduce((s, a, j) => s + (a[i] ?? 0) * (x[j] ?? 0), 0) - t) ** 2, 0)
      const found = away(shares)
      for (let j = 1; j < parts.length; j++)
        for (const step of [-1e-2, 1e-2]) {
          const moved = shares.map((x, k) => x + (k === j ? step : k === 0 ? -step : 0))
          expect(away(moved)).toBeGreaterThan(found - 1e-6 * Math.max(1, found))
        }
    }),
  )
})
