import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import * as passwords from '@/lib/auth/password'
import { checkSignIn, waitSeconds, type Asker } from '@/lib/auth/sign-in'
import { knownAs, withMark } from '@/lib/auth/known-browser'
import { hashToken } from '@/lib/auth/link-token'
import { findMember } from '@/lib/db/people'
import { addSession, findMemberOfSession } from '@/lib/db/sessions'
import { changePassword, canReset, makeResetLink, resetPassword } from '@/lib/tasks/team/reset-password'
import {
  acceptInvite,
  changeRole,
  inviteMember,
  readInvitation,
  readTeam,
  removeMember,
  withdrawInvite,
} from '@/lib/tasks/team/run-team'
import { endEveryOtherSession, endOwnSession, readOwnSessions } from '@/lib/tasks/team/own-sessions'
import { canSetUp, setUpHouse } from '@/lib/tasks/house/set-up-house'
import { worldOf, type Actor, type World } from '@/lib/tasks/world'
import { freshDatabase, type FreshDatabase } from '@/test/support/fresh-database'

const wanted = {
  name: 'Mara',
  email: 'mara@ferrysteps.example',
  password: 'twelve grey gulls',
  cafeName: 'Ferry Steps',
  currency: 'JPY',
  allergenList: 'eu',
  start: 'empty',
} as const

vi.mock('@/lib/auth/password', { spy: true })

/** Comes from one address of the café's network, by a browser nobody knows. */
const stranger: Asker = { address: '192.168.1.77', knownAs: () => null }

let fresh: FreshDatabase
let world: World
let clock: number

beforeEach(async () => {
  fresh = await freshDatabase()
  clock = Date.parse('2026-03-14T10:00:00Z')
  world = { ...worldOf(fresh.db), now: () => new Date(clock) }
  await world.db.oneTimeLink.create({
    data: {
      id: world.id(),
      kind: 'setup',
      tokenHash: hashToken('key'),
      createdAt: world.now(),
      expiresAt: new Date(clock + 86_400_000),
    },
  })
})
afterEach(() => fresh.close())

const signInOn = (id: string, who: Actor) =>
  addSession(world.db, {
    id,
    userId: who.userId,
    browser: 'Firefox on Linux',
    createdAt: world.now(),
    expiresAt: new Date(clock + 14 * 86_400_000),
  })
const isIn = async (id: string, who: Actor) =>
  (await findMemberOfSession(world.db, { id, userId: who.userId }, world.now())) !== null

async function owner(): Promise<Actor> {
  const made = await setUpHouse(world, 'key', wanted)
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

test('the set-up link makes one owner, once', async () => {
  expect(await canSetUp(world, 'another')).toBe(false)
  expect(await canSetUp(world, 'key')).toBe(true)
  const both = await Promise.all([
    setUpHouse(world, 'key', wanted),
    setUpHouse(world, 'key', { ...wanted, email: 'second@ferrysteps.example' }),
  ])
  expect(both.filter((one) => one.ok)).toHaveLength(1)
  expect(await canSetUp(world, 'key')).toBe(false)
  expect(await world.db.user.count()).toBe(1)
  expect(await world.db.cafe.findFirst()).toMatchObject({ currency: 'JPY', currencyDigits: 0, isDemo: false })
})

test('a new café has published ingredients whose labels nobody has read, water and ice apart', async () => {
  await owner()
  const rows = await world.db.ingredient.findMany()
  expect(rows.length).toBeGreaterThan(15)
  for (const row of rows) expect(row.labelReadAt !== null).toBe(row.kind === 'water' || row.kind === 'ice')
  const assumed = rows.filter((row) => row.densityIsAssumed).map((row) => row.name)
  expect(assumed).toContain('Oat drink, unsweetened')
  expect(assumed).not.toContain('Whole milk, 3.25 % fat')
})

test('an invitation works once, for its role, until it is withdrawn or a week old', async () => {
  const boss = await owner()
  const person = { name: 'Tomas', email: 'tomas@ferrysteps.example', password: 'nine wet umbrellas' }
  const token = await inviteMember(world, boss, 'pourer', null)
  expect(await readInvitation(world, token)).toEqual({ cafeName: 'Ferry Steps', role: 'pourer' })
  expect(await acceptInvite(world, stranger, token, { ...person, email: wanted.email })).toMatchObject({
    reason: 'email-taken',
  })
  const joined = await acceptInvite(world, stranger, token, person)
  expect(joined).toMatchObject({ ok: true })
  expect(await acceptInvite(world, stranger, token, { ...person, email: 'x@y.example' })).toMatchObject({
    reason: 'link-dead',
  })
  expect(joined.ok && (await findMember(world.db, joined.value.userId))?.role).toBe('pourer')

  const withdrawn = await inviteMember(world, boss, 'owner', 'nobody')
  const [open] = (await readTeam(world, boss)).invites
  await withdrawInvite(world, boss, open?.id ?? '')
  expect(await readInvitation(world, withdrawn)).toBeNull()
  const old = await inviteMember(world, boss, 'viewer', null)
  clock += 8 * 86_400_000
  expect(await readInvitation(world, old)).toBeNull()
})

test('a café keeps its last owner; a removed member loses the session and the way back in, and a new role counts at once', async () => {
  const boss = await owner()
  expect(await removeMember(world, boss, boss.userId)).toMatchObject({ reason: 'last-owner' })
  expect(await changeRole(world, boss, boss.userId, 'viewer')).toMatchObject({ reason: 'last-owner' })
  const token = await inviteMember(world, boss, 'owner', null)
  const second = await acceptInvite(world, stranger, token, {
    name: 'Ines',
    email: 'ines@ferrysteps.example',
    password: 'nine wet umbrellas',
  })
  if (!second.ok) throw new Error(second.reason)
  expect(await changeRole(world, boss, second.value.userId, 'viewer')).toMatchObject({ ok: true })
  expect((await findMember(world.db, second.value.userId))?.role).toBe('viewer')
  const signIn = () => checkSignIn(world.db, world.now(), stranger, 'ines@ferrysteps.example', 'nine wet umbrellas')
  expect(await signIn()).toMatchObject({ ok: true })
  expect(await removeMember(world, boss, second.value.userId)).toMatchObject({ ok: true })
  expect(await findMember(world.db, second.value.userId)).toBeNull()
  expect(await signIn()).toMatchObject({ reason: 'wrong' })
  expect(await removeMember(world, boss, second.value.userId)).toMatchObject({ reason: 'not-a-member' })
})

test('a reset link works once, ends every session and lifts the brake', async () => {
  const boss = await owner()
  for (let tries = 0; tries < 6; tries++) await checkSignIn(world.db, world.now(), stranger, wanted.email, 'wrong')
  expect(await checkSignIn(world.db, world.now(), stranger, wanted.email, wanted.password)).toMatchObject({
    reason: 'wait',
  })
  expect(await makeResetLink(world, 'nobody@ferrysteps.example')).toBeNull()
  const token = (await makeResetLink(world, ' Mara@FerrySteps.example ')) ?? ''
  expect(await canReset(world, token)).toBe(true)
  await signInOn('laptop', boss)
  expect(await resetPassword(world, token, 'seven blue ropes')).toMatchObject({ ok: true })
  expect(await resetPassword(world, token, 'again and again')).toMatchObject({ reason: 'link-dead' })
  expect(await isIn('laptop', boss)).toBe(false)
  expect(await checkSignIn(world.db, world.now(), stranger, wanted.email, 'seven blue ropes')).toMatchObject({
    ok: true,
  })
})

test('one of two reset links, once used, ends the other, and so does changing the password', async () => {
  const boss = await owner()
  const make = async () => (await makeResetLink(world, wanted.email)) ?? ''
  const [first, second] = [await make(), await make()]
  expect(await resetPassword(world, first, 'seven blue ropes')).toMatchObject({ ok: true })
  expect(await canReset(world, second)).toBe(false)
  const third = await make()
  expect(await changePassword(world, boss, stranger, 'seven blue ropes', 'eight wet oars')).toMatchObject({ ok: true })
  expect(await resetPassword(world, third, 'nine old nets')).toMatchObject({ reason: 'link-dead' })
})

test('without a live link no password is hashed: that is what would keep the house busy for a stranger', async () => {
  await owner()
  const hashed = vi.mocked(passwords.hashInTurn)
  hashed.mockClear()
  expect(await setUpHouse(world, 'made up', wanted)).toMatchObject({ reason: 'link-dead' })
  expect(await resetPassword(world, 'made up', 'seven blue ropes')).toMatchObject({ reason: 'link-dead' })
  const { name, password } = wanted
  const joining = { name, password, email: 'new@ferrysteps.example' }
  expect(await acceptInvite(world, stranger, 'made up', joining)).toMatchObject({ reason: 'link-dead' })
  expect(hashed).not.toHaveBeenCalled()
})

test('whoever holds an open session tries no more present passwords than a stranger may', async () => {
  const boss = await owner()
  const tried = async (typed: string) => {
    const done = await changePassword(world, boss, stranger, typed, 'seven blue ropes')
    return done.ok ? 'changed' : done.reason
  }
  for (let tries = 0; tries < 5; tries++) expect(await tried('not it')).toBe('wrong')
  expect(await tried(wanted.password)).toBe('wait')
  clock += 16_000
  expect(await tried(wanted.password)).toBe('changed')
})

test('changing one’s password asks for the present one', async () => {
  const boss = await owner()
  expect(await changePassword(world, boss, stranger, 'not it', 'seven blue ropes')).toMatchObject({ reason: 'wrong' })
  expect(await changePassword(world, boss, stranger, wanted.password, 'seven blue ropes')).toMatchObject({ ok: true })
})

test('five failures are free, then each doubles the wait, known address or not', async () => {
  expect([1, 4, 5, 6, 7, 30].map((failures) => waitSeconds(failures))).toEqual([0, 0, 15, 30, 60, 900])
  for (let tries = 0; tries < 5; tries++) {
    expect(await checkSignIn(world.db, world.now(), stranger, 'ghost@ferrysteps.example', 'x')).toMatchObject({
      reason: 'wrong',
    })
  }
  expect(await checkSignIn(world.db, world.now(), stranger, 'ghost@ferrysteps.example', 'x')).toMatchObject({
    reason: 'wait',
    detail: { seconds: '15' },
  })
  clock += 16_000
  expect(await checkSignIn(world.db, world.now(), stranger, 'ghost@ferrysteps.example', 'x')).toMatchObject({
    reason: 'wrong',
  })
})

test('tries made all at once are counted one by one: five are looked at', async () => {
  await owner()
  const guess = (at: number) => checkSignIn(world.db, world.now(), stranger, wanted.email, `guess ${at}`)
  const answers = await Promise.all(Array.from({ length: 12 }, (_, at) => guess(at)))
  expect(answers.filter((answer) => !answer.ok && answer.reason === 'wrong')).toHaveLength(5)
  expect(await checkSignIn(world.db, world.now(), stranger, wanted.email, wanted.password)).toMatchObject({
    reason: 'wait',
  })
  clock += 16_000
  expect(await checkSignIn(world.db, world.now(), stranger, wanted.email, wanted.password)).toMatchObject({ ok: true })
  expect(await world.db.signInBrake.count({ where: { email: wanted.email } })).toBe(0)
})

test('an address longer than any address is answered like a stranger’s and leaves nothing behind', async () => {
  const long = `${'a'.repeat(300)}@ferrysteps.example`
  expect(await checkSignIn(world.db, world.now(), stranger, long, 'x')).toMatchObject({ reason: 'wrong' })
  expect(await checkSignIn(world.db, world.now(), stranger, wanted.email, 'x'.repeat(201))).toMatchObject({
    reason: 'wrong',
  })
  expect(await world.db.signInBrake.count()).toBe(0)
})

test('every change of the team stands in the diary, and no token does', async () => {
  const boss = await owner()
  const token = await inviteMember(world, boss, 'viewer', null)
  await acceptInvite(world, stranger, token, {
    name: 'Ines',
    email: 'ines@ferrysteps.example',
    password: 'nine wet umbrellas',
  })
  const rows = await world.db.auditRow.findMany()
  expect(rows.map((row) => row.act).sort()).toEqual(['house-set-up', 'member-invited', 'member-joined'])
  expect(JSON.stringify(rows)).not.toContain(token)
})

test('a session lasts until it is ended, fourteen days are over, or its owner leaves; nobody ends another’s', async () => {
  const boss = await owner()
  const joined = await acceptInvite(world, stranger, await inviteMember(world, boss, 'viewer', null), {
    name: 'Ines',
    email: 'ines@ferrysteps.example',
    password: 'nine wet umbrellas',
  })
  if (!joined.ok) throw new Error(joined.reason)
  const ines = joined.value
  await signInOn('laptop', boss)
  await signInOn('phone', boss)
  await signInOn('tablet', ines)
  await endOwnSession(world, { ...ines, sessionId: 'tablet' }, 'phone')
  expect([await isIn('laptop', boss), await isIn('phone', boss), await isIn('tablet', ines)]).toEqual([
    true,
    true,
    true,
  ])
  expect(await isIn('tablet', boss)).toBe(false)

  const atLaptop = { ...boss, sessionId: 'laptop' }
  expect((await readOwnSessions(world, atLaptop)).map(({ id, isThisOne }) => [id, isThisOne])).toEqual(
    expect.arrayContaining([
      ['laptop', true],
      ['phone', false],
    ]),
  )
  await endOwnSession(world, atLaptop, 'phone')
  expect([await isIn('laptop', boss), await isIn('phone', boss)]).toEqual([true, false])
  await signInOn('phone', boss)
  await endEveryOtherSession(world, atLaptop)
  expect([await isIn('laptop', boss), await isIn('phone', boss)]).toEqual([true, false])

  await removeMember(world, boss, ines.userId)
  expect(await isIn('tablet', ines)).toBe(false)
  clock += 14 * 86_400_000
  expect(await isIn('laptop', boss)).toBe(false)
  await signInOn('next', boss)
  expect((await world.db.session.findMany()).map(({ id }) => id)).toEqual(['next'])
  const acts = (await world.db.auditRow.findMany({ where: { act: { contains: 'session' } } })).map(({ act }) => act)
  expect(acts.sort()).toEqual(['other-sessions-ended', 'session-ended'])
})

test('a changed password ends every session', async () => {
  const boss = await owner()
  await signInOn('laptop', boss)
  expect(await changePassword(world, boss, stranger, wanted.password, 'seven blue ropes')).toMatchObject({ ok: true })
  expect(await isIn('laptop', boss)).toBe(false)
})

test('a stranger’s guesses keep nobody out who comes from elsewhere, or by a browser that was signed in before', async () => {
  await owner()
  const secret = 'a secret of this house, long enough'
  const right = (asker: Asker) => checkSignIn(world.db, world.now(), asker, wanted.email, wanted.password)
  const wrong = (asker: Asker) => checkSignIn(world.db, world.now(), asker, wanted.email, 'a guess')
  const first = await right({ ...stranger, address: '192.168.1.20' })
  if (!first.ok) throw new Error(first.reason)
  const marks = withMark(undefined, first.value, secret)
  const known: Asker = { ...stranger, knownAs: (record) => knownAs(marks, record, secret) }

  for (let tries = 0; tries < 5; tries++) expect(await wrong(stranger)).toMatchObject({ reason: 'wrong' })
  expect(await right(stranger)).toMatchObject({ reason: 'wait' })
  expect(await right({ ...stranger, address: '192.168.1.20' })).toMatchObject({ ok: true })
  expect(await right(known)).toMatchObject({ ok: true })

  // A known browser that fell into other hands guesses no faster than a stranger.
  for (let tries = 0; tries < 5; tries++) expect(await wrong(known)).toMatchObject({ reason: 'wrong' })
  expect(await right(known)).toMatchObject({ reason: 'wait' })
  expect(await right({ ...stranger, address: '192.168.1.20' })).toMatchObject({ ok: true })
})

test('a mark is good for its person, its house and the password it was made with', async () => {
  const mara = { userId: 'mara', passwordHash: 'one' }
  const marks = withMark(withMark(undefined, { userId: 'ines', passwordHash: 'x' }, 'ours'), mara, 'ours')
  expect(knownAs(marks, mara, 'ours')).toMatch(/^browser /)
  expect(knownAs(marks, { userId: 'ines', passwordHash: 'x' }, 'ours')).toMatch(/^browser /)
  expect(knownAs(marks, { ...mara, passwordHash: 'two' }, 'ours')).toBeNull()
  expect(knownAs(marks, mara, 'another')).toBeNull()
  expect(knownAs(marks, { userId: 'tomas', passwordHash: 'one' }, 'ours')).toBeNull()
  expect(knownAs('x.y.<script>', mara, 'ours')).toBeNull()
  expect(withMark(marks, mara, 'ours').split('.')).toHaveLength(2)
})

test('one address tries many accounts no further than thirty times, and then once a minute; a day later nothing is left of it', async () => {
  await owner()
  const guess = (at: number) => checkSignIn(world.db, world.now(), stranger, `guest${at}@ferrysteps.example`, 'a guess')
  for (let at = 0; at < 30; at++) expect(await guess(at)).toMatchObject({ reason: 'wrong' })
  expect(await guess(30)).toMatchObject({ reason: 'wait', detail: { seconds: '15' } })
  clock += 16_000
  expect(await guess(31)).toMatchObject({ reason: 'wrong' })
  expect(await guess(32)).toMatchObject({ reason: 'wait', detail: { seconds: '30' } })
  expect(await world.db.signInBrake.count()).toBe(32)
  clock += 25 * 3_600_000
  expect(await guess(33)).toMatchObject({ reason: 'wrong' })
  expect(await world.db.signInBrake.count()).toBe(2)
})

test('who signs in rightly is not counted, however many come from one address', async () => {
  await owner()
  const signIn = () => checkSignIn(world.db, world.now(), stranger, wanted.email, wanted.password)
  for (let at = 0; at < 35; at++) expect(await signIn()).toMatchObject({ ok: true })
})

test('two passwords are hashed at a time, eight wait, and everybody else is told to come back', async () => {
  await owner()
  const guess = (at: number) => checkSignIn(world.db, world.now(), stranger, `guest${at}@ferrysteps.example`, 'a guess')
  const answers = await Promise.all(Array.from({ length: 40 }, (_, at) => guess(at)))
  const counted = (reason: string) => answers.filter((answer) => !answer.ok && answer.reason === reason).length
  expect([counted('wrong'), counted('busy')]).toEqual([10, 30])
  expect(await guess(41)).toMatchObject({ reason: 'wrong' })
})

test('a password that is tried first is refused wherever one is chosen, and costs no link', async () => {
  const weak = { ...wanted, password: 'mara@ferrysteps.example' }
  expect(await setUpHouse(world, 'key', weak)).toMatchObject({ reason: 'guessable' })
  const boss = await owner()
  const token = await inviteMember(world, boss, 'viewer', null)
  const person = { name: 'Ines', email: 'ines@ferrysteps.example', password: 'password1234' }
  expect(await acceptInvite(world, stranger, token, person)).toMatchObject({ reason: 'guessable' })
  const reset = (await makeResetLink(world, wanted.email)) ?? ''
  expect(await resetPassword(world, reset, 'aaaaaaaaaaaaaa')).toMatchObject({ reason: 'guessable' })
  expect(await changePassword(world, boss, stranger, wanted.password, 'qwertyuiop12')).toMatchObject({
    reason: 'guessable',
  })
  expect([await canReset(world, reset), (await readInvitation(world, token)) !== null]).toEqual([true, true])
})

test('who left comes back by an invitation and the password they had; nobody else comes in their name', async () => {
  const boss = await owner()
  const ines = { name: 'Ines', email: 'ines@ferrysteps.example', password: 'nine wet umbrellas' }
  const joined = await acceptInvite(world, stranger, await inviteMember(world, boss, 'developer', null), ines)
  if (!joined.ok) throw new Error(joined.reason)
  const again = await inviteMember(world, boss, 'viewer', null)
  expect(await acceptInvite(world, stranger, again, ines)).toMatchObject({ reason: 'email-taken' })
  await removeMember(world, boss, joined.value.userId)
  const other = { ...ines, name: 'Not Ines', password: 'four green boats' }
  expect(await acceptInvite(world, stranger, again, other)).toMatchObject({ reason: 'wrong-earlier' })
  expect(await acceptInvite(world, stranger, again, ines)).toMatchObject({ ok: true, value: joined.value })
  expect(await findMember(world.db, joined.value.userId)).toMatchObject({ name: 'Ines', role: 'viewer' })
  expect(await world.db.user.count()).toBe(2)
  // Guesses at it are braked like any others.
  await removeMember(world, boss, joined.value.userId)
  const third = await inviteMember(world, boss, 'viewer', null)
  for (let tries = 0; tries < 5; tries++) await acceptInvite(world, stranger, third, other)
  expect(await acceptInvite(world, stranger, third, ines)).toMatchObject({ reason: 'wait' })
})
