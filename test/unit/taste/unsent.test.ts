import { expect, test } from 'vitest'
import type { Parcel } from '@/app/taste/phone/parcel'
import { unsentLines } from '@/app/taste/phone/unsent'
import { LIKING_WORDS } from '@/lib/panel/liking'

const asked = Object.freeze({
  attributes: ['Overall liking', 'Sweetness', 'Cardamom', 'Taste'],
  asks: [
    { kind: 'liking' },
    { kind: 'steps', steps: ['too little, by far', 'too little', 'just right', 'too much', 'too much, by far'] },
    { kind: 'line', low: 'none', high: 'very much' },
    {
      kind: 'words',
      words: [
        { place: 1, word: 'floral' },
        { place: 0, word: 'nutty' },
      ],
    },
  ],
  scale: LIKING_WORDS,
} as const)

let id = 0
const parcel = (message: Record<string, unknown>): Parcel => {
  id += 1
  const head = { sitting: 's', code: '417', revision: id, key: `a-key-of-its-own-${id}` }
  return { id, sitting: 's', message: { ...head, ...message } as Parcel['message'] }
}

test('what was not sent is listed in words to copy: the last of answers that replaced one another', () => {
  const lines = unsentLines(asked, [
    parcel({ act: 'code-seen' }),
    parcel({ attribute: 0, value: 2 }),
    parcel({ attribute: 1, value: 4 }),
    parcel({ attribute: 2, value: 0 }),
    parcel({ attribute: 3, value: 3 }),
    parcel({ attribute: 0, value: 6 }),
    parcel({ act: 'comment', comment: 'round <b>' }),
    parcel({ act: 'lock' }),
    parcel({ code: '523', act: 'skip', reason: 'rather-not' }),
  ]).map((line) => line.replaceAll('\u00a0', ' '))
  expect(lines).toEqual([
    'Cup 4 1 7, Overall liking: like slightly (6)',
    'Cup 4 1 7, Sweetness: too much (4)',
    'Cup 4 1 7, Cardamom: 0 of 100',
    'Cup 4 1 7, Taste: floral, nutty',
    'Cup 4 1 7, comment: “round <b>”',
    'Cup 5 2 3, skipped: I would rather not',
  ])
})

test('a cup seen or done is no answer, nor is a comment taken away', () => {
  expect(unsentLines(asked, [parcel({ act: 'code-seen' }), parcel({ act: 'lock' })])).toEqual([])
  expect(unsentLines(asked, [parcel({ act: 'comment', comment: '' })])).toEqual([])
})
