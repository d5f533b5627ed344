import { expect, test } from 'vitest'
import { readReply } from '@/app/taste/phone/post'

const parcel = {
  id: 1,
  sitting: 's',
  message: { sitting: 's', code: '417', attribute: 0, value: 7, revision: 1, key: 'the-key-of-this' },
}

test('only our own acknowledgement of this very message means taken', () => {
  expect(readReply(parcel, 200, { key: 'the-key-of-this', value: 7 }).kind).toBe('taken')
  expect(readReply(parcel, 200, { key: 'another' }).kind).toBe('unreachable')
  expect(readReply(parcel, 200, { welcome: 'to the guest network' }).kind).toBe('unreachable')
  expect(readReply(parcel, 204, null).kind).toBe('unreachable')
})

test('our refusals are refusals; a machine in trouble is only not reached', () => {
  const words = { reason: 'locked', words: 'You have moved on.' }
  expect(readReply(parcel, 409, words)).toEqual({ kind: 'refused', ...words })
  expect(readReply(parcel, 404, { error: 'not found' }).kind).toBe('unreachable')
  expect(readReply(parcel, 503, { reason: 'fault', words: 'later' }).kind).toBe('unreachable')
})
