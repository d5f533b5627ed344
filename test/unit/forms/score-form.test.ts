import { expect, test } from 'vitest'
import { CupForm, ScoreForm } from '@/lib/forms/score-form'

const score = Object.freeze({
  sitting: 'a-sitting-name',
  code: '417',
  attribute: 0,
  value: 7,
  revision: 1,
  key: '0123456789abcdef',
})
const readable = (message: object) => ScoreForm.safeParse(message).success

test('a whole score is read as it is', () => {
  expect(ScoreForm.parse(score)).toEqual(score)
})

test.each([16384, 4.5, -1, '7', '', null, undefined, Number.NaN])('a value of %s is refused', (value) => {
  expect(readable({ ...score, value })).toBe(false)
})

test.each([
  { code: '41' },
  { code: '4178' },
  { code: 417 },
  { attribute: -1 },
  { revision: 0 },
  { revision: 1.5 },
  { key: '' },
  { key: 'x'.repeat(65) },
  { sitting: "' or 1=1 --" },
])('a message with %o is refused', (change) => {
  expect(readable({ ...score, ...change })).toBe(false)
})

test('a field nobody asked for is refused, not ignored', () => {
  expect(readable({ ...score, servingId: 'abc' })).toBe(false)
})

test('a skip needs one of the reasons, and a comment has a length', () => {
  const { sitting, code, revision, key } = score
  const message = { sitting, code, revision, key }
  const cup = (more: object) => CupForm.safeParse({ ...message, ...more }).success
  expect(cup({ act: 'skip', reason: 'rather-not' })).toBe(true)
  expect(cup({ act: 'skip', reason: 'bored' })).toBe(false)
  expect(cup({ act: 'skip' })).toBe(false)
  expect(cup({ act: 'comment', comment: 'x'.repeat(1000) })).toBe(true)
  expect(cup({ act: 'comment', comment: 'x'.repeat(1001) })).toBe(false)
  expect(cup({ act: 'close-panel' })).toBe(false)
})
