/** The doors a taster's phone meets: cookies, outsiders, forged forms, and words for each state. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { POST as postScore } from '@/app/taste/scores/route'
import { enterDoor } from '@/app/join/door'
import { GET as getKept, POST as postKept } from '@/app/taste/kept/route'
import { GET as getState } from '@/app/taste/state/route'
import { codeOf, openPanelForTest, type OpenPanel } from '../../support/open-panel'
import { phoneBrowser, WILLING } from '../../support/phone-browser'

const here = vi.hoisted(() => ({ world: undefined as unknown, userId: null as string | null }))
vi.mock('@/lib/tasks/world', async (actual) => ({ ...(await actual<object>()), theWorld: () => here.world }))
const logged = vi.hoisted(() => [] as { fault: string }[])
vi.mock('pino', () => ({ default: () => ({ error: (line: { fault: string }) => logged.push(line) }) }))
vi.mock('@/lib/auth/session', () => ({ currentUserId: async () => here.userId }))

let panel: OpenPanel
beforeEach(async () => {
  panel = await openPanelForTest()
  here.world = panel.world
  here.userId = null
})
afterEach(() => panel.close())

const door = () => ({ kind: 'join', token: panel.joinToken }) as const
const card = (number: number) => ({ kind: 'card', token: panel.seats[number - 1]?.cardToken ?? '' }) as const

async function seated(name = 'Ana') {
  const phone = phoneBrowser()
  await phone.show(door())
  await phone.enter(door(), { ...WILLING, name })
  return phone
}

const aCup = { sitting: 'a-turn-long-ago', code: '211', revision: 1, key: 'a-key-of-its-own' }
const anAnswer = { ...aCup, attribute: 0, value: 6 }
type Phone = ReturnType<typeof phoneBrowser>

test('the seat cookie is hidden from scripts, stays on this site, and is stored only as its hash', async () => {
  const phone = phoneBrowser()
  await phone.show(door())
  const { head } = await phone.enter(door(), WILLING)
  expect(head).toMatch(/set-cookie: taster-seat=[\w-]{43}; Path=\/; Max-Age=2592000; HttpOnly; SameSite=Lax/)
  const token = phone.cookies.get('taster-seat') ?? ''
  const seat = await panel.db.seat.findFirst({ where: { number: 1 } })
  expect(seat?.browserHash).toMatch(/^[0-9a-f]{64}$/)
  expect(JSON.stringify(await panel.db.seat.findMany())).not.toContain(token)
})

test('looking at the door changes nothing, however often a preview fetches it', async () => {
  for (let i = 0; i < 3; i++) await phoneBrowser().show(card(1))
  expect(await panel.db.taster.count()).toBe(0)
  expect(await panel.db.auditRow.count()).toBe(0)
})

test('a form sent from another site comes without the ticket and takes no seat', async () => {
  const forged = await phoneBrowser().enter(door(), WILLING)
  expect(forged.status).toBe(200)
  expect(forged.body).toContain('did not keep the cookie')
  expect(await panel.db.taster.count()).toBe(0)
})

test.each([
  ['consent', 'Tick this to take part.'],
  ['unaffected', 'If something concerns you, stop here.'],
  ['unseen', 'Tick this only if it is true.'],
  ['name', 'Write a first name or a nickname.'],
])('without %s there is no seat, and the words stand at the field', async (field, words) => {
  const phone = phoneBrowser()
  await phone.show(door())
  const rest = Object.entries(WILLING).filter(([name]) => name !== field)
  const { body } = await phone.enter(door(), Object.fromEntries(rest))
  expect(body).toContain(words)
  expect(body).toContain(`aria-describedby="${field}-problem"`)
  expect(await panel.db.taster.count()).toBe(0)
})

test('who stops is thanked, and nothing is kept', async () => {
  const phone = phoneBrowser()
  await phone.show(door())
  const { body } = await phone.enter(door(), { act: 'stop', name: 'Ana' })
  expect(body).toContain('nothing about you has been kept')
  expect(await panel.db.taster.count()).toBe(0)
  expect(await panel.db.auditRow.count()).toBe(0)
})

test('what a taster types comes back as text, never as markup', async () => {
  const phone = phoneBrowser()
  await phone.show(door())
  const { body } = await phone.enter(door(), { act: 'take', name: '"><script>alert(1)</script>' })
  expect(body).not.toContain('<script>alert')
  expect(body).toContain('&#60;script&#62;')
})

test('a comment cannot end the block of JSON it travels in', async () => {
  const phone = await seated()
  const { sitting } = (await phone.state()).json()
  const comment = '</script><script>alert(1)</script>'
  await phone.cup({ sitting, code: codeOf(1, 0), revision: 1, key: 'a-key-of-its-own', act: 'comment', comment })
  const { body } = await phone.taste()
  expect(body).not.toContain('<script>alert')
  const block = /<script type="application\/json" id="state">(.*?)<\/script>/s.exec(body)?.[1] ?? '{}'
  expect(JSON.parse(block).cups[0].comment).toBe(comment)
})

test('who opened both lists on this browser is turned away with the reason', async () => {
  for (const list of ['filling', 'serving']) {
    const { cafeId, panelId, userId } = panel
    await panel.db.listOpening.create({ data: { id: panel.world.id(), cafeId, panelId, userId, list, at: new Date() } })
  }
  here.userId = panel.userId
  const phone = phoneBrowser()
  await phone.show(door())
  const answer = await phone.enter(door(), WILLING)
  expect(answer.status).toBe(403)
  expect(answer.body).toContain('opened both lists')
  expect(phone.cookies.has('taster-seat')).toBe(false)
  expect(await panel.db.taster.count()).toBe(0)
})

/** A list of this panel as somebody opened it. */
async function opened(list: string): Promise<string> {
  const id = panel.world.id()
  const { cafeId, panelId, userId } = panel
  await panel.db.listOpening.create({ data: { id, cafeId, panelId, userId, list, at: panel.world.now() } })
  return id
}

test('a browser that has shown the serving list is turned away signed out too, and one that shows a made-up opening is not', async () => {
  const id = await opened('serving')
  const phone = phoneBrowser()
  await phone.show(door())
  phone.cookies.set('lists-shown', `xxxxxxxxxxxxxxxxxxxxx.${id}`)
  const answer = await phone.enter(door(), WILLING)
  expect([answer.status, answer.body]).toMatchObject([403, expect.stringContaining('opened the serving list')])
  phone.cookies.set('lists-shown', "' OR 1=1 --.xxxxxxxxxxxxxxxxxxxxx")
  expect((await phone.enter(door(), WILLING)).status).toBe(303)
})

test.each([
  ['taste', (phone: Phone) => phone.taste()],
  ['state', (phone: Phone) => phone.state()],
  ['score', (phone: Phone) => phone.score(anAnswer)],
  ['cup', (phone: Phone) => phone.cup({ ...aCup, act: 'lock' })],
  ['pass', (phone: Phone) => phone.passOn()],
  ['door', (phone: Phone) => phone.enter(door(), { act: 'stop' })],
])(
  'whoever is signed in when a phone comes to “%s” is known at its seat, and shuts it if they know too much',
  async (_, act) => {
    const phone = await seated()
    await opened('serving')
    here.userId = panel.userId
    await act(phone)
    expect(await panel.db.seat.findFirst({ where: { number: 1 } })).toMatchObject({
      memberId: panel.userId,
      barredWhy: 'opened-serving-list',
    })
  },
)

test('a seat whose taster knows too much is told so in words, and its score is refused', async () => {
  const phone = await seated()
  const { sitting } = (await phone.state()).json()
  await opened('serving')
  here.userId = panel.userId
  const message = { sitting, code: codeOf(1, 0), attribute: 0, value: 6, revision: 1, key: 'a-key-of-its-own' }
  const refused = await phone.score(message)
  expect([refused.status, refused.json()]).toMatchObject([410, { reason: 'knows-too-much' }])
  expect((await phone.taste()).body).toContain('This seat takes no more answers')
  expect(await panel.db.score.count()).toBe(0)
})

test('a stranger’s cookie, a wrong one and none open nothing', async () => {
  await seated()
  const stranger = phoneBrowser()
  expect((await stranger.state()).status).toBe(401)
  stranger.cookies.set('taster-seat', 'x'.repeat(43))
  expect((await stranger.state()).status).toBe(410)
  expect((await stranger.taste()).body).toContain('moved to another phone')
  stranger.cookies.set('taster-seat', "' OR 1=1 --")
  expect((await stranger.state()).status).toBe(401)
  const message = { sitting: 'a-turn-of-a-stranger', code: codeOf(1, 0), attribute: 0, value: 9, revision: 1 }
  expect((await stranger.score({ ...message, key: 'a-key-of-its-own' })).status).toBe(401)
  expect(await panel.db.score.count()).toBe(0)
})

test('one seat cannot score at another, even with the right code', async () => {
  const ana = await seated('Ana')
  const ben = await seated('Ben')
  const { sitting } = (await ana.state()).json()
  const message = { sitting, code: codeOf(1, 0), attribute: 0, value: 1, revision: 1, key: 'a-key-of-its-own' }
  expect((await ben.score(message)).json()).toMatchObject({ reason: 'another-sitting' })
  const { sitting: own } = (await ben.state()).json()
  expect((await ben.score({ ...message, sitting: own })).json()).toMatchObject({ reason: 'not-your-cup' })
  expect(await panel.db.score.count()).toBe(0)
})

test.each([
  ['text/plain', '{}'],
  ['application/x-www-form-urlencoded', 'value=9'],
  ['application/json', '{"value":'],
  ['application/json', '[]'],
  ['application/json', 'null'],
  ['application/json', JSON.stringify({ comment: 'x'.repeat(9000) })],
])('a message of type %s that is no answer (%.12s…) is refused in words', async (type, body) => {
  const phone = await seated()
  const answer = await postScore(phone.post('/taste/scores', body, type))
  expect(answer.status).toBe(422)
  expect(await answer.json()).toMatchObject({ reason: 'unreadable' })
})

test('the acknowledgement repeats the key and says what stands', async () => {
  const phone = await seated()
  const { sitting } = (await phone.state()).json()
  const message = { sitting, code: codeOf(1, 0), attribute: 0, value: 6, revision: 2, key: 'a-key-of-its-own' }
  expect((await phone.score(message)).json()).toEqual({ key: 'a-key-of-its-own', value: 6, revision: 2 })
  const older = { ...message, value: 1, revision: 1, key: 'another-key-older' }
  expect((await phone.score(older)).json()).toEqual({ key: 'another-key-older', value: 6, revision: 2 })
})

test('a phone whose seat went to paper is told so in words, keeps its turn for what was not sent, and hears no code', async () => {
  const phone = await seated()
  const { sitting } = (await phone.state()).json()
  await panel.db.seat.updateMany({ where: { number: 1 }, data: { onPaper: true } })
  const state = await phone.state()
  expect(state.status).toBe(410)
  expect(state.json()).toMatchObject({ reason: 'on-paper', words: expect.stringContaining('continues on paper') })
  const message = { sitting, code: codeOf(1, 0), attribute: 0, value: 6, revision: 1, key: 'a-key-of-its-own' }
  const refused = await phone.score(message)
  expect([refused.status, refused.json()]).toMatchObject([410, { reason: 'on-paper', key: 'a-key-of-its-own' }])
  const { body, status } = await phone.taste()
  expect(status).toBe(200)
  expect(body).toContain('Ask who serves for the sheet')
  expect(body).toContain(sitting)
  expect(body).not.toContain(codeOf(1, 0))
})

test('passing the phone on leads to the panel’s own code and frees the phone', async () => {
  const phone = await seated('Ana')
  expect((await phone.show(door())).body).toContain('This phone has seat 1')
  expect((await phone.passOn()).json()).toEqual({ next: `/join/${panel.joinToken}` })
  expect((await phone.taste()).body).toContain('has been passed on')
  await phone.enter(door(), { ...WILLING, name: 'Ben' })
  expect((await phone.state()).json()).toMatchObject({ seat: 2 })
})

test.each([
  ['application/json', '{"act":"continue"}'],
  ['multipart/form-data; boundary=x', 'no boundary here'],
  ['text/plain', ''],
])(
  'a body that is no form (%s) is answered with the page again: no fault, no seat, nothing taken out',
  async (type, body) => {
    const stranger = phoneBrowser()
    await stranger.show(door())
    const again = await enterDoor(door(), stranger.post('/join/x', body, type))
    expect(await again.text()).toContain('did not arrive')
    const phone = await seated()
    await phone.hear('kept', await getKept(phone.ask('/taste/kept')))
    const kept = await postKept(phone.post('/taste/kept', body, type))
    expect(await kept.text()).toContain('What is kept of you')
    expect([again.status, kept.status, logged.length]).toEqual([200, 200, 0])
    expect(await panel.db.taster.findMany()).toMatchObject([{ name: 'Ana' }])
  },
)

test('when the database fails the phone hears calm words and a number, not the fault', async () => {
  const phone = await seated()
  here.world = { db: { seat: { findFirst: () => Promise.reject(new Error('SQLITE_IOERR at /secret/path')) } } }
  const answer = await getState(phone.ask('/taste/state'))
  expect(answer.status).toBe(503)
  const body = await answer.text()
  expect(logged).toHaveLength(1)
  expect(JSON.parse(body)).toEqual({
    reason: 'fault',
    words: `The café’s computer did not manage that (fault ${logged[0]?.fault}).`,
  })
  expect(body).not.toContain('SQLITE')
  expect(body).not.toContain('secret')
})
