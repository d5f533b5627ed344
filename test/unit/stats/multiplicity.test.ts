import fc from 'fast-check'
import { expect, test } from 'vitest'
import { holm, holmWithGaps } from '@/lib/stats/multiplicity'

const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 30 })

test('adjusted values stay in [0, 1], never fall below the raw ones, and keep their order', () => {
  fc.assert(
    fc.property(shares, (p) => {
      const adjusted = holm(p)
      p.forEach((raw, i) => {
        expect(adjusted[i]).toBeGreaterThanOrEqual(raw)
        expect(adjusted[i]).toBeLessThanOrEqual(1)
        p.forEach((other, j) => {
          if (raw < other) expect(adjusted[i]).toBeLessThanOrEqual(adjusted[j] ?? NaN)
          if (raw === other) expect(adjusted[i]).toBe(adjusted[j])
        })
      })
    }),
  )
})

test('the order in which p values are given changes nothing', () => {
  fc.assert(
    fc.property(shares, (p) => {
      expect(holm(p.toReversed()).toReversed()).toEqual(holm(p))
    }),
  )
})

test('one p value stays as it is, and none gives none', () => {
  expect(holm([0.03])).toEqual([0.03])
  expect(holm([])).toEqual([])
})

test('values that could not be had stay null and are not counted', () => {
  expect(holmWithGaps([0.01, null, 0.04])).toEqual([0.02, null, 0.04])
  expect(holmWithGaps([null])).toEqual([null])
})

test.each([-0.01, 1.01, Number.NaN])('a p of %s is refused', (p) => {
  expect(() => holm([0.5, p])).toThrow(String(p))
})
