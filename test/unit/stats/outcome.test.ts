import { expect, test } from 'vitest'
import { UnusableReadings } from '@/lib/stats/outcome'

test('readings that cannot carry a question are a RangeError with their own name, words kept', () => {
  const error = new UnusableReadings('no scored cup is called F')
  expect(error).toBeInstanceOf(RangeError)
  expect(error.name).toBe('UnusableReadings')
  expect(error.message).toBe('no scored cup is called F')
})
