import { expect, test } from 'vitest'
import { askForPhone, servingsForPhone, setsForPhone } from '@/lib/panel/blind'
import { likingQuestion } from '@/lib/panel/question'

const stored = Object.freeze({
  position: 2,
  code: '417',
  codeSeenAt: new Date(0),
  lockedAt: null,
  skippedAt: null,
  comment: null,
  commentAt: null,
  commentRevision: 0,
  scores: [{ value: 6, revision: 2, attributePosition: 1 }],
})

test('a phone gets its cups in the order of tasting, with its own answers in the order of the questions', () => {
  const [first, second] = servingsForPhone([stored, { ...stored, position: 1, code: '902', scores: [] }], 3, null)
  expect(first).toMatchObject({ position: 1, code: '902', answers: [null, null, null] })
  expect(second).toEqual({
    position: 2,
    code: '417',
    seen: true,
    locked: false,
    skipped: false,
    comment: '',
    commentRevision: 0,
    commentKept: false,
    answers: [null, { value: 6, revision: 2 }, null],
  })
})

test('a cup that is done is not told again: what was said there is nobody’s to read from the phone or a photographed card', () => {
  const done = { ...stored, lockedAt: new Date(1), comment: 'round', commentRevision: 3 }
  expect(servingsForPhone([done], 2, new Date(9))).toEqual([
    {
      position: 2,
      code: '417',
      seen: true,
      locked: true,
      skipped: false,
      comment: '',
      commentRevision: 3,
      commentKept: false,
      answers: [null, null],
    },
  ])
})

test('whatever else a row carries stays behind', () => {
  const careless = { ...stored, id: 'secret-id', cupId: 'secret-cup', trial: { name: 'secret-trial' } }
  expect(JSON.stringify(servingsForPhone([careless], 2, null))).not.toContain('secret')
})

test('a comment of before the seat moved stays in the house, and the phone hears only that there is one', () => {
  const told = (commentAt: Date | null, movedAt: Date | null) => {
    const [cup] = servingsForPhone([{ ...stored, comment: 'round', commentAt, commentRevision: 1 }], 2, movedAt)
    return [cup?.comment, cup?.commentKept]
  }
  expect(told(new Date(5), null)).toEqual(['round', false])
  expect(told(new Date(5), new Date(4))).toEqual(['round', false])
  expect(told(new Date(5), new Date(5))).toEqual(['', true])
  expect(told(new Date(5), new Date(6))).toEqual(['', true])
  expect(told(null, new Date(6))).toEqual(['', true])
  const [empty] = servingsForPhone([{ ...stored, comment: '', commentRevision: 1 }], 2, new Date(6))
  expect(empty).toMatchObject({ comment: '', commentKept: false })
})

test('words come in the seat’s own order, each with its place in the plan; steps and ends in words', () => {
  const base = { low: null, high: null, words: [] }
  const turned = <One>(of: readonly One[]) => [...of].reverse()
  expect(askForPhone({ ...base, name: 'Taste', kind: 'words', words: ['nutty', 'floral'] }, turned)).toEqual({
    kind: 'words',
    words: [
      { place: 1, word: 'floral' },
      { place: 0, word: 'nutty' },
    ],
  })
  expect(askForPhone({ ...base, name: 'Sweetness', kind: 'just-right-5' }, turned)).toMatchObject({ kind: 'steps' })
  expect(askForPhone({ ...base, name: 'Cardamom', kind: 'intensity-100' }, turned)).toEqual({
    kind: 'line',
    low: 'none at all',
    high: 'very much',
  })
  expect(askForPhone(likingQuestion('Aftertaste'), turned)).toEqual({ kind: 'liking' })
})

test('of a set a phone gets places of its own order and its own answer, until the set is done', () => {
  const set = {
    ...{ number: 1, lockedAt: null, skippedAt: null, positions: [2, 1] },
    answers: [{ answer: [2], revision: 3, attributePosition: 0 }],
  }
  const known = { number: 1, positions: [1, 2], locked: false, skipped: false }
  expect(setsForPhone([set], 1)).toEqual([{ ...known, answers: [{ answer: [2], revision: 3 }] }])
  expect(setsForPhone([{ ...set, lockedAt: new Date(1) }], 1)).toEqual([{ ...known, locked: true, answers: [null] }])
})
