import { expect, test } from 'vitest'
import { holdsWords } from '@/lib/base/find-words'

// Written out by hand.
test.each([
  ['date', 'Iced date-cardamom coffee', true],
  ['CARDAMOM iced', 'Iced date-cardamom coffee', true],
  ['creme', 'Crème légère', true],
  ['légère', 'creme legere', true],
  ['date syrup', 'Iced date-cardamom coffee', false],
  ['  ', 'Iced date-cardamom coffee', false],
  ['', '', false],
  ['ß', 'Weiße', true],
])('“%s” in “%s”: %s', (typed, text, found) => {
  expect(holdsWords(typed)(text)).toBe(found)
})
