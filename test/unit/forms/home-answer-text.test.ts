import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checksum, HOME_LONGEST, readHomeAnswer, writeHomeAnswer } from '@/lib/forms/home-answer-text'

const answer = {
  mark: 'BCDF-GHJK',
  key: 'kkkkkkkkkkkk',
  liking: 7,
  changed: 'Half the syrup, oat drink.\nCrème instead',
  further: '',
  name: 'Ina',
}

test('the sum is that of zlib', () => {
  // check value of CRC-32/ISO-HDLC; the other by Python 3, zlib.crc32 of the same bytes
  expect(checksum('123456789')).toBe('CBF43926')
  expect(checksum('BCDF-GHJK\nkkkkkkkkkkkk\n7\nHalf the syrup, oat drink. Crème instead\n\nIna')).toBe('AB2C7D55')
})

test('an answer is a text that a person can read, with its form and its sum', () => {
  expect(writeHomeAnswer(answer, 'like moderately')).toBe(`== Answer from home, form 1 ==
sheet: BCDF-GHJK
answer: kkkkkkkkkkkk
liked: 7 of 9, like moderately
changed:
| Half the syrup, oat drink.
| Crème instead
name:
| Ina
== End, check AB2C7D55 ==`)
})

const written = writeHomeAnswer(answer, 'like moderately')

test.each([
  ['as it is', written],
  ['with what stands around it in a letter', `Hello,\nthank you for the sheet!\n\n${written}\n\n-- \nIna`],
  ['quoted', written.replace(/^/gm, '> ')],
  ['with the ends of lines of another system', written.replace(/\n/g, '\r\n')],
  ['wrapped', written.replace('syrup, oat', 'syrup,\noat')],
  ['with blanks that do not break', written.replace('syrup, oat', 'syrup,\u00a0oat')],
  ['its letters taken apart', written.normalize('NFD')],
])('it is read back %s', (_, text) => {
  const read = readHomeAnswer(text)
  expect(read.ok && { ...read.value, changed: read.value.changed.replace(/\s+/g, ' ') }).toEqual({
    ...answer,
    changed: 'Half the syrup, oat drink. Crème instead',
  })
})

test.each([
  ['no-answer', 'It was lovely, thank you'],
  ['no-answer', written.split('\n').slice(1).join('\n')],
  ['other-form', written.replace('form 1', 'form 2')],
  ['cut-off', written.split('\n').slice(0, -1).join('\n')],
  ['cut-off', `${written.split('\n').at(-1)}\n${written.split('\n').slice(0, -1).join('\n')}`],
  ['damaged', written.replace('7 of 9', '9 of 9')],
  ['damaged', written.replace('Ina', 'Ira')],
  ['damaged', written.replace('BCDF', 'BCDG')],
  ['damaged', written.replace('| Crème instead\n', '')],
  ['damaged', written.replace('AB2C7D55', '00000000')],
  ['too-long', `${written}\n${'x'.repeat(HOME_LONGEST.pasted)}`],
])('%s is told apart', (reason, text) => {
  expect(readHomeAnswer(text)).toEqual({ ok: false, reason })
})

test('whatever is typed is read back in its words, lines that look like the text’s own included', () => {
  const words = fc.oneof(
    fc.string({ maxLength: 200, unit: 'grapheme' }),
    fc.constantFrom(
      '== End, check 00000000 ==',
      'name: Ada\nliked: 9',
      '| sheet: X',
      '> quoted',
      '\n\n| \n',
      'a\u200bb',
    ),
  )
  const flat = (text: string) =>
    text
      .normalize('NFC')
      .replace(/[\u200b\ufeff]/g, '')
      .replace(/\s+/g, ' ')
      .trim()
  fc.assert(
    fc.property(words, words, words, fc.option(fc.integer({ min: 1, max: 9 })), (changed, further, name, liking) => {
      const read = readHomeAnswer(writeHomeAnswer({ ...answer, changed, further, name, liking }, 'any'))
      expect(read.ok).toBe(true)
      if (!read.ok) return
      expect(read.value.liking).toBe(liking)
      expect([read.value.changed, read.value.further, read.value.name].map(flat)).toEqual(
        [changed, further, name].map(flat),
      )
    }),
  )
})
