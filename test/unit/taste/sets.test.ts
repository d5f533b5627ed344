/** The phone's way through cups that are answered together, without a browser. */
import { expect, test } from 'vitest'
import { markOf, pathOf, type Parcel } from '@/app/taste/phone/parcel'
import { knownRevision, placeOf, standsInstead, withMessage } from '@/app/taste/phone/progress'
import { codesOf, setOf } from '@/app/taste/phone/sets'
import { unsentLines } from '@/app/taste/phone/unsent'
import type { SeatState } from '@/lib/panel/blind'

const cup = (position: number, code: string, seen = false) => ({
  ...{ position, code, seen, locked: false, skipped: false },
  ...{ comment: '', commentRevision: 0, commentKept: false, answers: [] },
})
const seat = (...seen: readonly boolean[]): SeatState => ({
  ...{ sitting: 'turn', seat: 7, title: 'A drink', open: true, gone: null, scale: [] },
  attributes: ['Which of the two is preferred'],
  asks: [{ kind: 'choose', none: true }],
  cups: [cup(1, '417', seen[0]), cup(2, '802', seen[1])],
  sets: [{ number: 1, positions: [1, 2], locked: false, skipped: false, answers: [null] }],
})
const sent = { sitting: 'turn', set: 1, revision: 1, key: 'k' }
const answer = (places: number[], revision = 1) => ({
  ...{ ...sent, act: 'answer' as const, attribute: 0, answer: places, revision },
})

test('every cup of a set is found before it is asked about, and the set once gone on is the end', () => {
  expect(placeOf(seat(), null, false)).toEqual({ kind: 'welcome' })
  expect(placeOf(seat(), null, true)).toEqual({ kind: 'code', cup: 0 })
  expect(placeOf(seat(true), null, false)).toEqual({ kind: 'code', cup: 1 })
  expect(placeOf(seat(true, true), null, false)).toEqual({ kind: 'set', set: 0 })
  expect(placeOf(withMessage(seat(true, true), answer([2])), null, false)).toEqual({ kind: 'set', set: 0 })
  expect(placeOf(withMessage(seat(true, true), { ...sent, act: 'lock' }), null, false)).toEqual({ kind: 'thanks' })
  expect(placeOf(withMessage(seat(true), { ...sent, act: 'skip', reason: 'rather-not' }), null, false)).toEqual({
    kind: 'thanks',
  })
  expect(placeOf({ ...seat(true), open: false }, null, false)).toEqual({ kind: 'closed' })
})

test('an answer lies over what the café knows and never goes backwards; what is done is done for every cup', () => {
  const newer = withMessage(seat(true, true), answer([1], 4))
  expect(withMessage(newer, answer([2], 3)).sets?.[0]?.answers).toEqual([{ answer: [1], revision: 4 }])
  expect(knownRevision(newer, { sitting: 'turn', set: 1, act: 'answer', attribute: 0, answer: [] })).toBe(4)
  const skipped = withMessage(newer, { ...sent, act: 'skip', reason: 'rather-not' })
  for (const one of skipped.cups) expect(one).toMatchObject({ locked: true, skipped: true })
  expect(withMessage(newer, { ...sent, set: 9, act: 'lock' })).toBe(newer)
})

test('an answer that lost to one already in the book gives way to what stands there', () => {
  expect(standsInstead(answer([2]), { answer: [2], revision: 1 })).toBeNull()
  expect(standsInstead(answer([2]), { answer: [], revision: 3 })).toEqual(answer([], 3))
  expect(standsInstead({ ...sent, act: 'lock' }, { locked: true })).toBeNull()
})

test('answers that replace one another carry one mark and go where sets are answered', () => {
  expect(markOf(answer([1]))).toBe(markOf(answer([2])))
  expect(markOf(answer([1]))).not.toBe(markOf({ ...sent, act: 'lock' }))
  expect(pathOf({ id: 1, sitting: 'turn', message: answer([1]) })).toBe('/taste/sets')
})

test('codes stand in the order of tasting; a cup outside sets has none', () => {
  expect(codesOf(seat(), { positions: [1, 2] })).toEqual(['417', '802'])
  expect(setOf(seat(), 1)?.number).toBe(1)
  expect(setOf({ ...seat(), sets: [] }, 1)).toBeNull()
})

test('what was not sent is told in words to copy', () => {
  const parcels = [answer([1]), answer([2], 2), { ...sent, act: 'lock' as const }].map((message, id): Parcel => ({
    id,
    sitting: 'turn',
    message,
  }))
  const lines = (some: readonly Parcel[]) => unsentLines(seat(), some).map((line) => line.replaceAll('\u00a0', ' '))
  expect(lines(parcels)).toEqual(['Cups 4 1 7 and 8 0 2: preferred 8 0 2'])
  expect(lines([{ id: 1, sitting: 'turn', message: answer([]) }])).toEqual(['Cups 4 1 7 and 8 0 2: no preference'])
  expect(lines([{ id: 1, sitting: 'turn', message: { ...sent, act: 'skip', reason: 'rather-not' } }])).toEqual([
    'Cups 4 1 7 and 8 0 2, skipped: I would rather not',
  ])
})

test('an order that never arrived is told with its places, and a set of three by all its codes', () => {
  const three: SeatState = {
    ...seat(true, true),
    attributes: ['Order of liking'],
    asks: [{ kind: 'rank' }],
    cups: [cup(1, '417', true), cup(2, '802', true), cup(3, '269', true)],
    sets: [{ number: 1, positions: [1, 2, 3], locked: false, skipped: false, answers: [null] }],
  }
  const lines = (message: Parcel['message']) =>
    unsentLines(three, [{ id: 1, sitting: 'turn', message }]).map((line) => line.replaceAll('\u00a0', ' '))
  expect(lines(answer([3, 1, 2]))).toEqual(['Cups 4 1 7, 8 0 2 and 2 6 9: 1st 2 6 9, 2nd 4 1 7, 3rd 8 0 2'])
  expect(lines({ ...sent, act: 'skip', reason: 'rather-not' })).toEqual([
    'Cups 4 1 7, 8 0 2 and 2 6 9, skipped: I would rather not',
  ])
})
