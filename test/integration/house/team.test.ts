import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import * as passwords from '@/lib/auth/password'
import { checkSignIn, waitSeconds } from '@/lib/auth/sign-in'
import { hashToken } from '@/lib/auth/link-token'
import { findMember } from '@/lib/db/people'
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
})

test('an invitation works once, for its role, until it is withdrawn or a week old', async () => {
  const boss = await owner()
  const person = { name: 'Tomas', email: 'tomas@ferrysteps.example', password: 'nine wet umbrellas' }
  const token = await inviteMember(world, boss, 'pourer', null)
  expect(await readInvitation(world, token)).toEqual({ cafeName: 'Ferry Steps', role: 'pourer' })
  expect(await acceptInvite(world, token, { ...person, email: wanted.email })).toMatchObject({ reason: 'email-taken' })
  const joined = await acceptInvite(world, token, person)
  expect(joined).toMatchObject({ ok: true })
  expect(await acceptInvite(world, token, { ...person, email: 'x@y.example' })).toMatchObject({ reason: 'link-dead' })
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
  const second = await acceptInvite(world, token, {
    name: 'Ines',
    email: 'ines@ferrysteps.example',
    password: 'nine wet umbrellas',
  })
  if (!second.ok) throw new Error(second.reason)
  expect(await changeRole(world, boss, second.value.userId, 'viewer')).toMatchObject({ ok: true })
  expect((await findMember(world.db, second.value.userId))?.role).toBe('viewer')
  const signIn = () => checkSignIn(world.db, world.now(), 'ines@ferrysteps.example', 'nine wet umbrellas')
  expect(await signIn()).toMatchObject({ ok: true })
  expect(await removeMember(world, boss, second.value.userId)).toMatchObject({ ok: true })
  expect(await findMember(world.db, second.value.userId)).toBeNull()
  expect(await signIn()).toMatchObject({ reason: 'wrong' })
  expect(await removeMember(world, boss, second.value.userId)).toMatchObject({ reason: 'not-a-member' })
})

test('a reset link works once, ends every session and lifts the brake', async () => {
  const boss = await owner()
  for (let tries = 0; tries < 6; tries++) await checkSignIn(world.db, world.now(), wanted.email, 'wrong')
  expect(await checkSignIn(world.db, world.now(), wanted.email, wanted.password)).toMatchObject({ reason: 'wait' })
  expect(await makeResetLink(world, 'nobody@ferrysteps.example')).toBeNull()
  const token = (await makeResetLink(world, ' Mara@FerrySteps.example ')) ?? ''
  expect(await canReset(world, token)).toBe(true)
  const before = (await findMember(world.db, boss.userId))?.sessionVersion ?? 0
  expect(await resetPassword(world, token, 'seven blue ropes')).toMatchObject({ ok: true })
  expect(await resetPassword(world, token, 'again and again')).toMatchObject({ reason: 'link-dead' })
  expect((await findMember(world.db, boss.userId))?.sessionVersion).toBe(before + 1)
  expect(await checkSignIn(world.db, world.now(), wanted.email, 'seven blue ropes')).toMatchObject({ ok: true })
})

test('one of two reset links, once used, ends the other, and so does changing the password', async () => {
  const boss = await owner()
  const make = async () => (await makeResetLink(world, wanted.email)) ?? ''
  const [first, second] = [await make(), await make()]
  expect(await resetPassword(world, first, 'seven blue ropes')).toMatchObject({ ok: true })
  expect(await canReset(world, second)).toBe(false)
  const third = await make()
  expect(await changePassword(world, boss, 'seven blue ropes', 'eight wet oars')).toMatchObject({ ok: true })
  expect(await resetPassword(world, third, 'nine old nets')).toMatchObject({ reason: 'link-dead' })
})

test('without a live link no password is hashed: that is what would keep the house busy for a stranger', async () => {
  await owner()
  const hashed = vi.mocked(passwords.hashPassword)
  hashed.mockClear()
  expect(await setUpHouse(world, 'made up', wanted)).toMatchObject({ reason: 'link-dead' })
  expect(await resetPassword(world, 'made up', 'seven blue ropes')).toMatchObject({ reason: 'link-dead' })
  const { name, password } = wanted
  const joining = { name, password, email: 'new@ferrysteps.example' }
  expect(await acceptInvite(world, 'made up', joining)).toMatchObject({ reason: 'link-dead' })
  expect(hashed).not.toHaveBeenCalled()
})

test('whoever holds an open session tries no more present passwords than a stranger may', async () => {
  const boss = await owner()
  const tried = async (typed: string) => {
    const done = await changePassword(world, boss, typed, 'seven blue ropes')
    return done.ok ? 'changed' : done.reason
  }
  for (let tries = 0; tries < 5; tries++) expect(await tried('not it')).toBe('wrong')
  expect(await tried(wanted.password)).toBe('wait')
  clock += 16_000
  expect(await tried(wanted.password)).toBe('changed')
})

test('changing one’s password asks for the present one', async () => {
  const boss = await owner()
  expect(await changePassword(world, boss, 'not it', 'seven blue ropes')).toMatchObject({ reason: 'wrong' })
  expect(await changePassword(world, boss, wanted.password, 'seven blue ropes')).toMatchObject({ ok: true })
})

test('five failures are free, then each doubles the wait, known address or not', async () => {
  expect([1, 4, 5, 6, 7, 30].map(waitSeconds)).toEqual([0, 0, 15, 30, 60, 900])
  for (let tries = 0; tries < 5; tries++) {
    expect(await checkSignIn(world.db, world.now(), 'ghost@ferrysteps.example', 'x')).toMatchObject({ reason: 'wrong' })
  }
  expect(await checkSignIn(world.db, world.now(), 'ghost@ferrysteps.example', 'x')).toMatchObject({
    reason: 'wait',
    detail: { seconds: '15' },
  })
  clock += 16_000
  expect(await checkSignIn(world.db, world.now(), 'ghost@ferrysteps.example', 'x')).toMatchObject({ reason: 'wrong' })
})

test('tries made all at once are counted one by one: five are looked at', async () => {
  await owner()
  const guess = (at: number) => checkSignIn(world.db, world.now(), wanted.email, `guess ${at}`)
  const answers = await Promise.all(Array.from({ length: 12 }, (_, at) => guess(at)))
  expect(answers.filter((answer) => !answer.ok && answer.reason === 'wrong')).toHaveLength(5)
  expect(await checkSignIn(world.db, world.now(), wanted.email, wanted.password)).toMatchObject({ reason: 'wait' })
  clock += 16_000
  expect(await checkSignIn(world.db, world.now(), wanted.email, wanted.password)).toMatchObject({ ok: true })
  expect(await world.db.signInBrake.count()).toBe(0)
})

test('an address longer than any address is answered like a stranger’s and leaves nothing behind', async () => {
  const long = `${'a'.repeat(300)}@ferrysteps.example`
  expect(await checkSignIn(world.db, world.now(), long, 'x')).toMatchObject({ reason: 'wrong' })
  expect(await checkSignIn(world.db, world.now(), wanted.email, 'x'.repeat(201))).toMatchObject({ reason: 'wrong' })
  expect(await world.db.signInBrake.count()).toBe(0)
})

test('every change of the team stands in the diary, and no token does', async () => {
  const boss = await owner()
  const token = await inviteMember(world, boss, 'viewer', null)
  await acceptInvite(world, token, { name: 'Ines', email: 'ines@ferrysteps.example', password: 'nine wet umbrellas' })
  const rows = await world.db.auditRow.findMany()
  expect(rows.map((row) => row.act).sort()).toEqual(['house-set-up', 'member-invited', 'member-joined'])
  expect(JSON.stringify(rows)).not.toContain(token)
})
