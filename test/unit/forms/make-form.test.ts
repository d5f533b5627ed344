import { expect, test } from 'vitest'
import { readMakeForm } from '@/lib/forms/make-form'

test('nothing asked, nothing to mend', () => {
  expect(readMakeForm({})).toEqual({
    typed: { count: 'glasses', amount: '', spare: '' },
    problems: {},
    asked: null,
  })
})

test('glasses, and per cent to spare as a share', () => {
  expect(readMakeForm({ count: 'glasses', amount: '30', spare: '15' }).asked).toEqual({
    count: 'glasses',
    amount: 30,
    spare: 0.15,
  })
  expect(readMakeForm({ count: 'strained', amount: '1656,5', spare: '' }).asked).toEqual({
    count: 'strained',
    amount: 1656.5,
    spare: 0,
  })
})

test.each([
  [{ amount: '2.5' }, 'amount', 'A whole number'],
  [{ amount: '' }, 'amount', 'Type a number'],
  [{ amount: '10001' }, 'amount', 'At most 10000'],
  [{ count: 'built', amount: '0' }, 'amount', 'more than zero'],
  [{ amount: '4', spare: '101' }, 'spare', 'At most 100'],
  [{ amount: '4', spare: 'some' }, 'spare', 'Type a number'],
] as const)('%j: words beside the field, and what was typed stays', (query, field, words) => {
  const form = readMakeForm(query)
  expect(form.problems[field]).toContain(words)
  expect(form.typed).toMatchObject(query)
  expect(form.asked).toBeNull()
})

test('a count nobody offers is glasses', () => {
  expect(readMakeForm({ count: 'constructor', amount: '3' }).asked?.count).toBe('glasses')
})
