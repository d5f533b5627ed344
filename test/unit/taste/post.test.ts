import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { ask, postParcel, readReply } from '@/app/taste/phone/post'

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

describe('without an answer', () => {
  beforeEach(() => vi.useFakeTimers())
  afterEach(() => {
    vi.useRealTimers()
    vi.unstubAllGlobals()
  })

  /** A network that takes everything and never answers, as a hanging access point does. */
  function hang() {
    vi.stubGlobal(
      'fetch',
      (_path: string, { signal }: RequestInit) =>
        new Promise((_, fail) => signal?.addEventListener('abort', () => fail(new Error('aborted')))),
    )
  }

  test('a question to the café’s computer ends after ten seconds as not reached', async () => {
    hang()
    const asked = ask('/taste/pass', 'post', (reply) => 'next' in reply)
    let answer: unknown = 'none yet'
    void asked.then((told) => (answer = told))
    await vi.advanceTimersByTimeAsync(9_999)
    expect(answer).toBe('none yet')
    await vi.advanceTimersByTimeAsync(1)
    expect(answer).toBeNull()
  })

  test('a parcel ends so too, and stays', async () => {
    hang()
    const posted = postParcel(parcel)
    await vi.advanceTimersByTimeAsync(10_000)
    expect(await posted).toEqual({ kind: 'unreachable' })
  })
})

test('a question is answered by our answer, by our refusal in words, or not at all', async () => {
  const reply = (body: unknown, status: number) =>
    vi.stubGlobal('fetch', async () => new Response(JSON.stringify(body), { status }))
  const passOn = () => ask('/taste/pass', 'post', (told) => 'next' in told)
  reply({ next: '/join/x' }, 200)
  expect(await passOn()).toEqual({ next: '/join/x' })
  reply({ reason: 'no-seat', words: 'None.' }, 401)
  expect(await passOn()).toEqual({ reason: 'no-seat', words: 'None.' })
  reply({ reason: 'fault', words: 'later' }, 503)
  expect(await passOn()).toBeNull()
  reply('a sign-in page', 200)
  expect(await passOn()).toBeNull()
  vi.unstubAllGlobals()
})
