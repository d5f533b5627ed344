import { expect, test } from 'vitest'
import type { BlindAsk, SeatState } from '@/lib/panel/blind'
import { knownRevision, placeOf, spelled, standsInstead, withMessage, withParcels } from '@/app/taste/phone/progress'
import { question, saveWords } from '@/app/taste/phone/words'

const cup = (code: string, more: object = {}) => ({
  position: 1,
  code,
  seen: false,
  locked: false,
  skipped: false,
  comment: '',
  commentRevision: 0,
  commentKept: false,
  answers: [null, null],
  ...more,
})
const seat = (...cups: ReturnType<typeof cup>[]): SeatState => ({
  sitting: 'turn',
  seat: 7,
  title: 'A drink',
  open: true,
  gone: null,
  attributes: ['Overall liking', 'Sweetness'],
  asks: [],
  scale: [],
  cups,
})
const answer = { value: 6, revision: 1 }
const sent = { sitting: 'turn', code: '417', revision: 1, key: 'k' }

test('a seat begins with its number, then asks for the first cup', () => {
  expect(placeOf(seat(cup('417'), cup('902')), null, false)).toEqual({ kind: 'welcome' })
  expect(placeOf(seat(cup('417'), cup('902')), null, true)).toEqual({ kind: 'code', cup: 0 })
})

test('a cup goes from its code over every question to the comment', () => {
  const at = (more: object) => placeOf(seat(cup('417', { seen: true, ...more })), null, false)
  expect(at({})).toEqual({ kind: 'answer', cup: 0, attribute: 0 })
  expect(at({ answers: [answer, null] })).toEqual({ kind: 'answer', cup: 0, attribute: 1 })
  expect(at({ answers: [answer, answer] })).toEqual({ kind: 'comment', cup: 0 })
})

test('a reload comes back to the question that was open, and never jumps one that is unanswered', () => {
  const state = seat(cup('417', { seen: true, answers: [answer, null] }))
  const mark = { sitting: 'turn', code: '417', step: 0 }
  expect(placeOf(state, mark, false)).toMatchObject({ attribute: 0 })
  expect(placeOf(state, { ...mark, step: 2 }, false)).toMatchObject({ attribute: 1 })
  expect(placeOf(state, { ...mark, sitting: 'the turn before' }, false)).toMatchObject({ attribute: 1 })
  expect(placeOf(state, { ...mark, code: '902' }, false)).toMatchObject({ attribute: 1 })
})

test('a finished or skipped cup leads to the next, and the last to the end', () => {
  expect(placeOf(seat(cup('417', { locked: true }), cup('902')), null, false)).toEqual({ kind: 'code', cup: 1 })
  expect(placeOf(seat(cup('417', { locked: true })), null, false)).toEqual({ kind: 'thanks' })
})

test('a closed panel asks nothing more; who was done before is still thanked', () => {
  expect(placeOf({ ...seat(cup('417')), open: false }, null, true)).toEqual({ kind: 'closed' })
  expect(placeOf({ ...seat(cup('417', { locked: true })), open: false }, null, true)).toEqual({ kind: 'thanks' })
})

test('what waits on the phone lies over what the café knows, and never goes backwards', () => {
  const state = seat(cup('417', { answers: [{ value: 3, revision: 5 }, null] }), cup('902'))
  const older = { id: 1, sitting: 'turn', message: { ...sent, attribute: 0, value: 9, revision: 2 } }
  const newer = { id: 2, sitting: 'turn', message: { ...sent, attribute: 0, value: 8, revision: 6 } }
  expect(withParcels(state, [older]).cups[0]?.answers[0]).toEqual({ value: 3, revision: 5 })
  expect(withParcels(state, [older, newer]).cups[0]?.answers[0]).toEqual({ value: 8, revision: 6 })
  expect(withParcels(state, [newer]).cups[1]).toEqual(state.cups[1])
})

test('seen, skipped, locked and commented show at once', () => {
  const state = seat(cup('417'))
  expect(withMessage(state, { ...sent, act: 'code-seen' }).cups[0]?.seen).toBe(true)
  expect(withMessage(state, { ...sent, act: 'lock' }).cups[0]).toMatchObject({ locked: true, skipped: false })
  expect(withMessage(state, { ...sent, act: 'skip', reason: 'rather-not' }).cups[0]).toMatchObject({
    locked: true,
    skipped: true,
  })
  expect(withMessage(state, { ...sent, act: 'comment', comment: 'thin' }).cups[0]?.comment).toBe('thin')
})

test('a draft knows the revision it has to beat', () => {
  const state = seat(cup('417', { answers: [{ value: 3, revision: 5 }, null], commentRevision: 2 }))
  expect(knownRevision(state, { sitting: 'turn', code: '417', attribute: 0, value: 1 })).toBe(5)
  expect(knownRevision(state, { sitting: 'turn', code: '417', attribute: 1, value: 1 })).toBe(0)
  expect(knownRevision(state, { sitting: 'turn', code: '417', act: 'comment', comment: '' })).toBe(2)
})

test('codes are spelled digit by digit, questions are asked in words', () => {
  expect(spelled('417').replace(/\s/g, ' ')).toBe('4 1 7')
  const asked = (second: string, ask: BlindAsk = { kind: 'liking' }, at = 1) =>
    question({ attributes: ['Overall liking', second], asks: [{ kind: 'liking' }, ask] }, at)
  expect(asked('Sweetness', undefined, 0)).toBe('How do you like this cup overall?')
  expect(asked('Sweetness')).toBe('How do you like the sweetness?')
  expect(asked('pH feel')).toBe('How do you like the pH feel?')
  expect(asked('Sweetness', { kind: 'steps', steps: [] })).toBe('How is the sweetness?')
  expect(asked('Cardamom', { kind: 'line', low: '', high: '' })).toBe('How strong is the cardamom?')
  expect(asked('Taste', { kind: 'words', words: [] })).toBe('Taste: which of these apply? Tap all that do.')
})

test('saved is said only when nothing waits', () => {
  expect(saveWords({ kind: 'saved', count: 0 }, true)).toBe('Saved')
  expect(saveWords({ kind: 'waiting', count: 2 }, true)).toBe('Waiting for connection, 2 entries kept')
  expect(saveWords({ kind: 'waiting', count: 1 }, true)).toBe('Waiting for connection, 1 entry kept')
  expect(saveWords({ kind: 'waiting', count: 1 }, false)).toContain('keep this page open')
})

test('what is written on the phone that went on with a seat takes the place of what is kept', () => {
  const state = seat(cup('417', { commentKept: true }))
  const said = withMessage(state, { ...sent, act: 'comment', comment: 'sweet' })
  expect(said.cups[0]).toMatchObject({ comment: 'sweet', commentKept: false })
})

test('a computer in trouble is not called a lost connection: its words, its number, and what is kept', () => {
  const trouble = { kind: 'troubled', words: 'The café’s computer did not manage that (fault m9c).' } as const
  expect(saveWords({ ...trouble, count: 2 }, true)).toBe(`${trouble.words} 2 entries kept, sent again by itself.`)
  expect(saveWords({ ...trouble, count: 1 }, true)).toBe(`${trouble.words} 1 entry kept, sent again by itself.`)
  expect(saveWords({ ...trouble, count: 1 }, false)).toMatch(/\(fault m9c\)\. Keep this page open/)
})

test('an answer that lost to one already in the book gives way to what stands there', () => {
  const mine = { ...sent, attribute: 0, value: 1 }
  expect(standsInstead(mine, { key: 'k', value: 1, revision: 1 })).toBeNull()
  expect(standsInstead(mine, { key: 'k', value: 9, revision: 1 })).toEqual({ ...mine, value: 9 })
  expect(standsInstead(mine, { key: 'k', value: 9, revision: 3 })).toEqual({ ...mine, value: 9, revision: 3 })
  expect(standsInstead({ ...sent, act: 'lock' }, { key: 'k', locked: true })).toBeNull()
  const shown = withMessage(seat(cup('417', { answers: [{ value: 1, revision: 1 }, null] })), mine)
  const after = withMessage(shown, standsInstead(mine, { value: 9, revision: 1 }) ?? mine)
  expect(after.cups[0]?.answers[0]).toEqual({ value: 9, revision: 1 })
})
