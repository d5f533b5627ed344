import { expect, test } from 'vitest'
import { readClosingAnswer, writeClosingAnswer } from '@/lib/tasks/result/closing-answer'

test('an answer that cannot be computed is kept as that, with why, and is no reason not to close', () => {
  const text = writeClosingAnswer(() => {
    throw new RangeError('level must lie between 0 and 1, got 95')
  })
  const read = readClosingAnswer(text)
  expect(read).toMatchObject({
    ok: true,
    value: { outcome: 'not-computed', why: 'RangeError: level must lie between 0 and 1, got 95' },
  })
})
