import { expect, test } from 'vitest'
import { checkLevel } from '@/lib/stats/check-level'

test('levels lie strictly between 0 and 1, and the refusal repeats the value', () => {
  expect(() => checkLevel(0.95)).not.toThrow()
  for (const level of [0, 1, 95, NaN]) expect(() => checkLevel(level)).toThrow(`got ${level}`)
})
