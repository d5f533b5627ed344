/**
 * Where personal data stands: a house in which everything about a person is a word of its own, searched through every table and
 * every file. What is found must be exactly what DEVELOPERS.md names, with purpose and time.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { hashToken } from '@/lib/auth/link-token'
import { checkSignIn, type Asker } from '@/lib/auth/sign-in'
import { forgottenMarks } from '@/lib/db/forgotten-marks'
import { addSession } from '@/lib/db/sessions'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { decide } from '@/lib/tasks/result/decide'
import { forgetTaster } from '@/lib/tasks/privacy/forget-taster'
import { setUpHouse } from '@/lib/tasks/house/set-up-house'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { chooseHearing, makeHomeSheet } from '@/lib/tasks/home/keep-home-sheet'
import { typeInHomeAnswer } from '@/lib/tasks/home/take-in-answer'
import type { Reader } from '@/lib/tasks/world'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { acceptInvite, inviteMember } from '@/lib/tasks/team/run-team'
import { makeResetLink } from '@/lib/tasks/team/reset-password'
import { dump } from '../../support/dump'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

const told = {
  name: 'Ormessa',
  address: 'ormessa@plimvane.example',
  note: 'Quendrik, weekends',
  taster: 'Zwenna',
  comment: 'Ask for Zwindolf at the quay',
  replaced: 'Ask for Brunhaldis',
  atHome: 'Wilbrun',
  changedAtHome: 'For Aunt Yrsamund',
  browser: 'Vexfox on Vexos',
  network: '203.0.113.77',
} as const

const asker: Asker = { address: told.network, knownAs: () => null }
const browser = 'b'.repeat(43)
let panel: OpenPanel
let file: string

beforeAll(async () => {
  panel = await openPanelForTest()
  file = panel.url.replace('file:', '')
  const { world, db } = panel
  const now = world.now()
  const expiresAt = new Date(now.getTime() + 86_400_000)
  await db.oneTimeLink.create({
    data: { id: 'l', kind: 'setup', tokenHash: hashToken('key'), createdAt: now, expiresAt },
  })
  const password = 'twelve grey gulls'
  const cafe = { cafeName: 'Ferry Steps', currency: 'EUR', allergenList: 'eu', start: 'empty' } as const
  const made = await setUpHouse(world, 'key', { name: told.name, email: told.address, password, ...cafe })
  if (!made.ok) throw new Error(made.reason)
  const token = await inviteMember(world, made.value, 'viewer', told.note)
  await acceptInvite(world, asker, token, { name: 'Emil', email: 'emil@plimvane.example', password })
  await inviteMember(world, made.value, 'viewer', told.note)
  await makeResetLink(world, told.address)
  await checkSignIn(db, now, asker, told.address, 'a guess')
  await addSession(db, { id: 's', userId: made.value.userId, browser: told.browser, createdAt: now, expiresAt })
  await tastes()
  const cafeMoney = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
  const runner = { cafeId: panel.cafeId, userId: panel.userId, cafe: cafeMoney }
  const closed = await closePanel(world, runner, panel.panelId)
  if (!closed.ok) throw new Error(closed.reason)
  // What is kept as it stood that day: the answer at closing, the evidence of the decision.
  await answersFromHome(runner)
  const decided = await decide(world, runner, panel.panelId, {
    kind: 'test-again',
    trialId: undefined,
    reason: 'Too few',
  })
  if (!decided.ok) throw new Error(decided.reason)
})
afterAll(() => panel.close())

async function tastes(): Promise<void> {
  const { world, db } = panel
  const by = { browser, userId: panel.userId, openings: [], name: told.taster }
  const taken = await takeSeat(world, { kind: 'card', token: panel.seats[0]?.cardToken ?? '' }, by)
  if (!taken.ok) throw new Error(taken.reason)
  const state = await readSeatState(world, browser)
  const serving = await db.serving.findFirstOrThrow({ where: { seatId: panel.seats[0]?.id ?? '', position: 1 } })
  const sitting = state.ok ? state.value.sitting : ''
  const message = { sitting, code: serving.code, key: 'k'.repeat(21), revision: 1 }
  await storeScore(world, browser, { ...message, attribute: 0, value: 7 })
  await storeComment(world, browser, { ...message, comment: told.comment })
  const replaced = { cafeId: panel.cafeId, servingId: serving.id, comment: told.replaced, revision: 1, source: 'paper' }
  await db.replacedAnswer.create({ data: { id: 'r', ...replaced, replacedAt: world.now() } })
}

async function answersFromHome(owner: Reader): Promise<void> {
  const { world, db } = panel
  const trial = await db.trial.findFirstOrThrow({ where: { cafeId: panel.cafeId } })
  await chooseHearing(world, owner, true)
  const made = await makeHomeSheet(world, owner, trial.recipeId, trial.id)
  if (!made.ok) throw new Error(made.reason)
  const said = { liking: 7, changed: told.changedAtHome, further: `${told.changedAtHome} and so on`, name: told.atHome }
  await typeInHomeAnswer(world, owner, made.value.id, 'h'.repeat(21), said)
}

const words: readonly string[] = Object.values(told)
const isTold = (value: unknown) =>
  typeof value === 'string' && words.some((word) => value.toLowerCase().includes(word.toLowerCase()))

function columnsThatTell(): readonly string[] {
  const found = new Set<string>()
  for (const [table, rows] of dump(file))
    for (const row of rows)
      for (const [column, value] of Object.entries(row)) if (isTold(value)) found.add(`${table}.${column}`)
  return [...found].sort()
}

/** The first cells of the table under "Personal data". */
function namedInTheManual(): readonly string[] {
  const section = readFileSync('DEVELOPERS.md', 'utf8').split('\n## Personal data\n')[1]?.split('\n## ')[0] ?? ''
  return [...section.matchAll(/^\| `([\w.]+)`/gm)].map(([, name]) => name ?? '').sort()
}

test('every column that holds something of a person is named in the manual, with purpose and time', () => {
  // What no marked word can stand in: hashes and ids are of a person, and told by no search.
  const byHand = ['Seat.browserHash', 'Seat.memberId', 'User.passwordHash']
  expect([...columnsThatTell(), ...byHand].sort()).toEqual(namedInTheManual())
})

test('no file beside the database tells of anybody, and after forgetting the database does not either', async () => {
  const actor = { cafeId: panel.cafeId, userId: panel.userId }
  await forgetTaster(panel.world, forgottenMarks(file), actor, { panelId: panel.panelId, seat: 1, words: true })
  const beside = readdirSync(dirname(file), { recursive: true, encoding: 'utf8' })
    .filter((name) => !/\.db(-wal|-shm)?$/.test(name))
    .map((name) => join(dirname(file), name))
  expect(beside).toEqual([`${file}.forgotten`])
  for (const path of beside) expect(isTold(readFileSync(path, 'utf8'))).toBe(false)
  expect(columnsThatTell().filter((column) => /^(Taster|Serving|ReplacedAnswer)/.test(column))).toEqual([])
})
