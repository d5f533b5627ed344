import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { ask, postParcel, readReply } from '@/app/taste/phone/post'
import { ANSWERS } from '@/lib/commands/door/answers.mjs'

const parcel = {
  id: 1,
  sitting: 's',
  message: { sitting: 's', code: '417', attribute: 0, value: 7, revision: 1, key: 'the-key-of-this' },
}

const told = (status: number, reply: unknown, comeBackMs = 0) => readReply(parcel, { status, reply, comeBackMs })

test('only our own acknowledgement of this very message means taken', () => {
  expect(told(200, { key: 'the-key-of-this', value: 7 }).kind).toBe('taken')
  expect(told(200, { key: 'another' }).kind).toBe('unreachable')
  expect(told(200, { welcome: 'to the guest network' }).kind).toBe('unreachable')
  expect(told(204, null).kind).toBe('unreachable')
})

test('our refusals are refusals; what is not from us is only not reached', () => {
  const words = { reason: 'locked', words: 'You have moved on.' }
  expect(told(409, words)).toEqual({ kind: 'refused', ...words })
  expect(told(404, { error: 'not found' }).kind).toBe('unreachable')
  expect(told(502, { error: 'bad gateway' }).kind).toBe('unreachable')
})

test('a machine in trouble was reached: its words and its number are told, and the answer stays', () => {
  const fault = 'The café’s computer did not manage that (fault m9cKOFPt).'
  expect(told(503, { reason: 'fault', words: fault }, 3000)).toEqual({
    kind: 'troubled',
    words: fault,
    comeBackMs: 3000,
  })
})

test.each(Object.entries(ANSWERS))('what the door says as “%s” is told in words, and the answer stays', (_, answer) => {
  const { status, door, words, comeBackSeconds = 0 } = answer
  const outcome = told(status, { door, words }, comeBackSeconds * 1000)
  expect(outcome).toMatchObject({ kind: 'troubled', comeBackMs: comeBackSeconds * 1000 })
  const said = outcome.kind === 'troubled' ? outcome.words : ''
  expect(words.startsWith(said.slice(0, -1))).toBe(true) // the door's own words, or the beginning of them
  if (status >= 500) expect(said).not.toMatch(/Nothing was changed|Try again|may not be kept/)
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

test('the header that says when to come back is heard', async () => {
  const busy = new Response('{"door":"busy","words":"Busy."}', { status: 503, headers: { 'retry-after': '2' } })
  vi.stubGlobal('fetch', async () => busy)
  expect(await postParcel(parcel)).toMatchObject({ kind: 'troubled', comeBackMs: 2000 })
  vi.unstubAllGlobals()
})

test('a question is answered by our answer, by our refusal or trouble in words, or not at all', async () => {
  const reply = (body: unknown, status: number) =>
    vi.stubGlobal('fetch', async () => new Response(JSON.stringify(body), { status }))
  const passOn = () => ask('/taste/pass', 'post', (told) => 'next' in told)
  reply({ next: '/join/x' }, 200)
  expect(await passOn()).toEqual({ next: '/join/x' })
  reply({ reason: 'no-seat', words: 'None.' }, 401)
  expect(await passOn()).toEqual({ reason: 'no-seat', words: 'None.' })
  reply({ reason: 'fault', words: 'later' }, 503)
  expect(await passOn()).toEqual({ trouble: 'later' })
  reply({ error: 'bad gateway' }, 502)
  expect(await passOn()).toBeNull()
  reply('a sign-in page', 200)
  expect(await passOn()).toBeNull()
  vi.unstubAllGlobals()
})
