import { expect, test } from 'vitest'
import { lost } from '@/lib/base/lost'

const read = (list: ArrayLike<number>, place: number): number => list[place] ?? lost()

test('what is there is read, zero and NaN included', () => {
  expect([read([4, 0], 0), read([4, 0], 1), read(Float64Array.of(NaN), 0)]).toEqual([4, 0, NaN])
})

test.each([2, -1, 0.5, NaN])('place %d of two breaks a promise', (place) => {
  expect(() => read([4, 0], place)).toThrow(RangeError)
  expect(() => read(Int32Array.of(4, 0), place)).toThrow(RangeError)
})
