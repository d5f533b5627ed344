import { expect, test } from 'vitest'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'

test('places are read, and what is no list of whole numbers is no answer', () => {
  expect(readSetAnswer('[2,1]')).toEqual([2, 1])
  expect(readSetAnswer('[]')).toEqual([])
  for (const text of ['', '2', '{"0":2}', '["2"]', '[1.5]', '[null]']) expect(readSetAnswer(text), text).toBeNull()
})
