import { expect, test } from 'vitest'
import type { Parcel } from '@/app/taste/phone/parcel'
import { unsentLines } from '@/app/taste/phone/unsent'
import { LIKING_WORDS } from '@/lib/panel/liking'

const asked = Object.freeze({ attributes: ['Overall liking', 'Sweetness'], scale: LIKING_WORDS })

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
    parcel({ attribute: 1, value: 9 }),
    parcel({ attribute: 0, value: 6 }),
    parcel({ act: 'comment', comment: 'round <b>' }),
    parcel({ act: 'lock' }),
    parcel({ code: '523', act: 'skip', reason: 'rather-not' }),
  ]).map((line) => line.replaceAll('\u00a0', ' '))
  expect(lines).toEqual([
    'Cup 4 1 7, Overall liking: like slightly (6)',
    'Cup 4 1 7, Sweetness: like extremely (9)',
    'Cup 4 1 7, comment: “round <b>”',
    'Cup 5 2 3, skipped: I would rather not',
  ])
})

test('a cup seen or done is no answer, nor is a comment taken away', () => {
  expect(unsentLines(asked, [parcel({ act: 'code-seen' }), parcel({ act: 'lock' })])).toEqual([])
  expect(unsentLines(asked, [parcel({ act: 'comment', comment: '' })])).toEqual([])
})
