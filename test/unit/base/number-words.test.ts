import { expect, test } from 'vitest'
import { numberWords } from '@/lib/base/number-words'

// Written out by hand, as one says them in English.
test.each([
  [0, 'zero'],
  [1.5, 'one point five'],
  [1.031, 'one point zero three one'],
  [1500, 'one thousand five hundred'],
  [12_345, 'twelve thousand three hundred and forty-five'],
  [100_000, 'one hundred thousand'],
  [999_999, 'nine hundred and ninety-nine thousand nine hundred and ninety-nine'],
  [2_000_010, 'two million and ten'],
  [40, 'forty'],
])('%d is said %s', (value, words) => {
  expect(numberWords(value)).toBe(words)
})
