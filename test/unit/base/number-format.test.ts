import { expect, test } from 'vitest'
import { coins, currencyDigits } from '@/lib/base/number-format'

// ISO 4217, list one: minor units of these currencies
test.each([
  ['EUR', 2],
  ['PHP', 2],
  ['JPY', 0],
  ['VND', 0],
  ['KWD', 3],
])('%s has %i decimals', (code, digits) => {
  expect(currencyDigits(code)).toBe(digits)
})

test('what is no code of a currency has none, and its amounts two decimals', () => {
  for (const word of ['g', 'coins', 'eur', '%', 'EURO', '']) expect(currencyDigits(word)).toBeNull()
  expect(coins(1.1, 'coins')).toBe('1.10')
})

test('an amount keeps its last zero and has no decimals that are not coins', () => {
  expect([coins(0.9, 'EUR'), coins(9000.02, 'VND'), coins(1.0944, 'EUR'), coins(1.0944, 'KWD')]).toEqual([
    '0.90',
    '9,000',
    '1.09',
    '1.094',
  ])
})
