import { expect, test } from 'vitest'
import { NOTHING, combine, figure, sum, tally, times, whyUnknown, written } from '@/lib/drink/figure'

test('one missing part makes the sum missing, and names it once', () => {
  const all = sum([tally(1, ''), tally(null, 'density of Milk'), tally(null, 'density of Milk')])
  expect(figure(all, 'g', () => 'never')).toEqual({ known: false, unit: 'g', missing: ['density of Milk'] })
})

test('what was assumed in a part is assumed in the whole', () => {
  const all = combine([tally(2, '', ['a']), tally(3, '', ['b', 'a'])], (x, y) => x * y)
  expect(all).toEqual({ total: 6, missing: [], assumed: ['a', 'b'] })
})

test('a division by nothing is missing, never NaN or infinite', () => {
  for (const how of [() => 0 / 0, () => 1 / 0]) {
    expect(combine([NOTHING], how).missing.length).toBe(1)
  }
  expect(tally(Number.NaN, 'weight of Ice').missing).toEqual(['weight of Ice'])
})

test('a share keeps what is missing', () => {
  expect(times(tally(4, ''), 0.5).total).toBe(2)
  expect(times(tally(null, 'x'), 0.5).missing).toEqual(['x'])
})

test('the reason reads as a sentence for one and for several', () => {
  const said = (missing: string[]) => whyUnknown({ known: false, unit: 'g', missing })
  expect(said(['density of Milk'])).toBe('not known: density of Milk is missing')
  expect(said(['a', 'b', 'c'])).toBe('not known: a, b and c are missing')
})

test('numbers in a formula have no trailing zeros and no minus zero', () => {
  expect([written(1.5), written(2), written(-0.001), written(1.23456, 4)]).toEqual(['1.5', '2', '0', '1.2346'])
})
