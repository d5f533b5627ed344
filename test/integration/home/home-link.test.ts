/** A link to a sheet for home: who guesses, who replays, who sends too much, and what is said when it has changed or ended. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { GET, POST } from '@/app/home/[token]/route'
import { HOME_LIMITS } from '@/lib/auth/home-brake'
import { endHomeLink, makeHomeLink } from '@/lib/tasks/home/keep-home-link'
import { chooseHearing, makeHomeSheet, withdrawHomeSheet } from '@/lib/tasks/home/keep-home-sheet'
import { readHomeSheet } from '@/lib/tasks/home/read-home-sheet'
import { restoreSteps } from '@/lib/tasks/backup/restore-steps'
import { cafeForTest, type TestCafe } from '../../support/cafe'

const here = vi.hoisted(() => ({ world: undefined as unknown, address: 'https://ferrysteps.example' as string | null }))
vi.mock('@/lib/tasks/world', async (actual) => ({ ...(await actual<object>()), theWorld: () => here.world }))
vi.mock('@/lib/tasks/house/public-address', () => ({ theAddressFromHome: () => here.address }))

let cafe: TestCafe
let sheetId: string
let token: string
let asker: string
let network = 0
beforeEach(async () => {
  cafe = await cafeForTest()
  here.world = cafe.world
  here.address = 'https://ferrysteps.example'
  // the brakes are the process's own: each test asks from elsewhere
  asker = `203.0.113.${++network}`
  const { world, owner, recipeId, trialIds } = cafe
  await chooseHearing(world, owner, true)
  const made = await makeHomeSheet(world, owner, recipeId, trialIds[3] ?? '')
  if (!made.ok) throw new Error(made.reason)
  sheetId = made.value.id
  token = await linked()
})
afterEach(() => cafe.close())

async function linked(): Promise<string> {
  const made = await makeHomeLink(cafe.world, cafe.owner, sheetId)
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

const at = (of: string) => ({ params: Promise.resolve({ token: of }) })
const from = (who: string) => ({ 'x-forwarded-for': who })

async function look(of = token, who = asker, query = '') {
  const answer = await GET(new Request(`https://ferrysteps.example/home/${of}${query}`, { headers: from(who) }), at(of))
  return { answer, body: await answer.text() }
}

const said = { key: 'k'.repeat(21), liking: '8', changed: 'Oat drink', further: '', name: 'Zwenna' }

async function send(fields: Readonly<Record<string, string>> = said, of = token, who = asker) {
  const body = new URLSearchParams(fields)
  const request = new Request(`https://ferrysteps.example/home/${of}`, { method: 'POST', body, headers: from(who) })
  const answer = await POST(request, at(of))
  return { answer, body: await answer.text() }
}

const noted = (act: string) => cafe.db.auditRow.count({ where: { act } })

test('a link shows the sheet, sets no cookie, tells nobody where one came from, and is in no index', async () => {
  const { answer, body } = await look()
  expect(answer.status).toBe(200)
  expect(body).toContain('Cold kiosk coffee')
  expect(body).toContain('Ombrelle syrup')
  expect(answer.headers.get('set-cookie')).toBeNull()
  expect(answer.headers.get('referrer-policy')).toBe('no-referrer')
  expect(answer.headers.get('x-robots-tag')).toContain('noindex')
  expect(answer.headers.get('cache-control')).toBe('no-store')
  expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'")
  expect(JSON.stringify(await cafe.db.homeSheet.findMany())).not.toContain(token)
  expect(await noted('home-link-made')).toBe(1)
})

test('who guesses, who holds a link that was withdrawn, and who comes where none is given out get one and the same answer', async () => {
  const { world, owner, stranger } = cafe
  const bodies = new Set<string>()
  const closed = async (of: string) => {
    for (const { answer, body } of [await look(of), await send(said, of)]) {
      expect(answer.status).toBe(404)
      bodies.add(body)
    }
  }
  await closed('x'.repeat(43))
  await closed(token.slice(0, -1))
  await closed('')
  const before = token
  token = await linked()
  await closed(before)
  await endHomeLink(world, stranger, sheetId)
  expect((await look()).answer.status).toBe(200)
  await endHomeLink(world, owner, sheetId)
  await endHomeLink(world, owner, sheetId)
  await closed(token)
  expect(await noted('home-link-withdrawn')).toBe(1)
  token = await linked()
  await chooseHearing(world, owner, false)
  await closed(token)
  await chooseHearing(world, owner, true)
  here.address = null
  await closed(token)
  here.address = 'https://ferrysteps.example'
  await withdrawHomeSheet(world, owner, sheetId)
  await closed(token)
  expect(bodies.size).toBe(1)
  expect(await cafe.db.homeAnswer.count()).toBe(0)
})

test('no link is made by another café, of a sheet that was withdrawn, or while none are given out', async () => {
  const { world, owner, stranger } = cafe
  await chooseHearing(world, stranger, true)
  expect(await makeHomeLink(world, stranger, sheetId)).toMatchObject({ reason: 'gone' })
  await chooseHearing(world, owner, false)
  expect(await makeHomeLink(world, owner, sheetId)).toMatchObject({ reason: 'off' })
  await chooseHearing(world, owner, true)
  await withdrawHomeSheet(world, owner, sheetId)
  expect(await makeHomeLink(world, owner, sheetId)).toMatchObject({ reason: 'gone' })
  expect((await readHomeSheet(world, owner, sheetId))?.hasLink).toBe(false)
})

test('an answer arrives once, however often it is sent, with its line in the diary', async () => {
  expect((await send()).answer.headers.get('location')).toBe(`/home/${token}?said=new`)
  expect((await send()).answer.headers.get('location')).toBe(`/home/${token}?said=known`)
  expect((await send({ ...said, changed: 'Something else' })).answer.headers.get('location')).toMatch(/known$/)
  expect(await cafe.db.homeAnswer.findMany({ omit: { id: true, at: true } })).toEqual([
    {
      cafeId: cafe.owner.cafeId,
      homeSheetId: sheetId,
      key: 'k'.repeat(21),
      name: 'Zwenna',
      changed: 'Oat drink',
      liking: 8,
      text: null,
      source: 'link',
      enteredById: null,
    },
  ])
  expect(await noted('home-answer-arrived')).toBe(1)
  expect((await look(token, asker, '?said=new')).body).toContain('Thank you')
})

test.each([
  ['nothing at all', { ...said, liking: '', changed: '', name: 'Ina' }, 'Say how you liked it'],
  ['too long a text', { ...said, changed: 'x'.repeat(1001) }, 'Please keep it under 1000 characters.'],
  ['too long a name', { ...said, name: 'x'.repeat(61) }, 'Please keep it under 60 characters.'],
  ['a step that is none', { ...said, liking: '10' }, 'Choose one of the nine steps'],
  ['a key that is none', { ...said, key: 'k' }, 'did not arrive whole'],
])('%s is refused beside its field, with what was typed still there', async (_, fields, words) => {
  const { answer, body } = await send(fields)
  expect(answer.status).toBe(200)
  expect(body).toContain(words)
  expect(body).toContain(fields.name)
  expect(await cafe.db.homeAnswer.count()).toBe(0)
})

test('what is typed is shown as text, whatever it looks like', async () => {
  const evil = '"><script>alert(1)</script>'
  const { body } = await send({ ...said, liking: '10', changed: evil, name: evil })
  expect(body).not.toContain('<script')
  expect(body).toContain('&#60;script&#62;')
})

test('one asker, and one link, send so many answers in a while; who waits keeps what was typed', async () => {
  const keyed = (key: number) => ({ ...said, key: `key-number-${key}` })
  for (let turn = 0; turn < HOME_LIMITS.byAsker.most; turn++) expect((await send(keyed(turn))).answer.status).toBe(303)
  const held = await send(keyed(100))
  expect(held.answer.status).toBe(429)
  expect(held.answer.headers.get('retry-after')).toBe('600')
  expect(held.body).toContain('Oat drink')
  for (let turn = HOME_LIMITS.byAsker.most; turn < HOME_LIMITS.byLink.most; turn++)
    expect((await send(keyed(turn), token, `198.51.100.${turn}`)).answer.status).toBe(303)
  expect((await send(keyed(101), token, '192.0.2.1')).answer.status).toBe(429)
  cafe.pass(HOME_LIMITS.byLink.windowMs)
  expect((await send(keyed(101), token, '192.0.2.1')).answer.status).toBe(303)
  expect(await cafe.db.homeAnswer.count()).toBe(HOME_LIMITS.byLink.most + 1)
})

test('who tries one link after the other waits', async () => {
  for (let turn = 0; turn < HOME_LIMITS.looks.most; turn++) expect((await look(`${turn}`)).answer.status).toBe(404)
  expect((await look()).answer.status).toBe(429)
  cafe.pass(HOME_LIMITS.looks.windowMs)
  expect((await look()).answer.status).toBe(200)
})

test('labels are read again each time: what was found since stands above all', async () => {
  const { owner, unreadId, db } = cafe
  expect((await look()).body).not.toContain('have changed since')
  const mark = { id: 'a', cafeId: owner.cafeId, ingredientId: unreadId, allergen: 'tree-nuts', state: 'contains' }
  await db.ingredientAllergen.create({ data: mark })
  const { body } = await look()
  expect(body).toMatch(/now known to contain Tree nuts[\s\S]*Weigh, in this order/)
})

test('after a restore no link opens that was open on the day of the backup', async () => {
  const manifest = {} as Parameters<(typeof restoreSteps)[number]>[1]
  for (const step of restoreSteps) await step(cafe.world, manifest, cafe.file)
  expect((await look()).answer.status).toBe(404)
})
