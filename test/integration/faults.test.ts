/**
 * Acts of tasting and pouring on a database whose driver fails at one call: nothing of a failed act stands, the books balance, and
 * sending it again does it, or says that it is done. Here the driver fails at the first, the middle and the last call, at COMMIT,
 * and at a COMMIT that is done and not answered; with EVERY_FAULT=1 in the environment, at each call there is.
 */
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Result } from '@/lib/base/result'
import { checkBooks } from '@/lib/db/books/check-books'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { markSeatLeft } from '@/lib/tasks/pour/mark-seat-left'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { setSeatAside } from '@/lib/tasks/pour/set-seat-aside'
import { tickServings } from '@/lib/tasks/pour/tick-servings'
import { callOffPanel } from '@/lib/tasks/plan/call-off-panel'
import { discardDraft } from '@/lib/tasks/plan/discard-draft'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { decide } from '@/lib/tasks/result/decide'
import { passPhoneOn } from '@/lib/tasks/taste/pass-phone-on'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { lockSet, skipSet } from '@/lib/tasks/taste/settle-set'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { storeSetAnswer } from '@/lib/tasks/taste/store-set-answer'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { decisionMark, seatsMark } from '@/lib/tasks/opened-with'
import type { World } from '@/lib/tasks/world'
import { cafeForTest, type TestCafe } from '../support/cafe'
import { openChoicePanel } from '../support/choice-panel'
import { exactDump } from '../support/dump'
import { failingDatabase, type Failure } from '../support/failing-driver'

interface Scene {
  readonly cafe: TestCafe
  readonly panelId: string
  readonly joinToken: string
  readonly at: { readonly sitting: string; readonly code: string }
  readonly servings: readonly { readonly id: string; readonly code: string; readonly seat: number }[]
  readonly file: string
}

type Stage = 'draft' | 'open' | 'tasted' | 'two-cups' | 'closed'

interface Row {
  readonly on: Stage
  readonly act: (world: World, scene: Scene) => Promise<Result<unknown>>
  /** what it answers when it is sent again and was done; without it, ok */
  readonly done?: string
}

const PHONE = 'phone-of-the-test-0001'
const key = 'key-of-the-test-0001'
const sit = (world: World, joinToken: string, browser: string) =>
  takeSeat(world, { kind: 'join', token: joinToken }, { browser, name: 'Ina', userId: null })
const firstOfSeat = ({ seat }: { seat: number }, at: number, all: readonly { seat: number }[]) =>
  all.findIndex((one) => one.seat === seat) === at
const ofSet = ({ at }: Scene) => ({ sitting: at.sitting, set: 1 })
const codesOf = ({ servings }: Scene, seat: number) => servings.filter((one) => one.seat === seat)

const rows: Readonly<Record<string, Row>> = {
  'open a panel': { on: 'draft', act: (w, s) => openPanel(w, s.cafe.owner, s.panelId), done: 'not-a-draft' },
  'discard a draft': { on: 'draft', act: (w, s) => discardDraft(w, s.cafe.owner, s.panelId), done: 'not-a-draft' },
  'take a seat': { on: 'open', act: (w, s) => sit(w, s.joinToken, PHONE) },
  'call a panel off': { on: 'open', act: (w, s) => callOffPanel(w, s.cafe.owner, s.panelId), done: 'not-open' },
  'add seats': {
    on: 'open',
    act: (w, s) => addSeats(w, s.cafe.owner, s.panelId, 2, seatsMark(s.servings.filter(firstOfSeat).length)),
    done: 'seats-since',
  },
  'tick a tray': {
    on: 'open',
    act: (w, s) => tickServings(w, s.cafe.owner, s.panelId, [codesOf(s, 1)[0]?.id ?? ''], true),
  },
  'store a score': {
    on: 'tasted',
    act: (w, s) => storeScore(w, PHONE, { ...s.at, attribute: 0, value: 8, revision: 2, key }),
  },
  'store a first score': {
    on: 'tasted',
    act: (w, s) => storeScore(w, PHONE, { ...s.at, attribute: 1, value: 8, revision: 1, key }),
  },
  'skip a cup': { on: 'tasted', act: (w, s) => skipServing(w, PHONE, { ...s.at, reason: 'rather-not' }) },
  'store a comment': {
    on: 'tasted',
    act: (w, s) => storeComment(w, PHONE, { ...s.at, comment: 'Thin.', revision: 1 }),
  },
  'answer a set': {
    on: 'two-cups',
    act: (w, s) =>
      storeSetAnswer(w, PHONE, { ...ofSet(s), act: 'answer', attribute: 0, answer: [2], revision: 2, key }),
  },
  'finish a set': { on: 'two-cups', act: (w, s) => lockSet(w, PHONE, ofSet(s)) },
  'skip a set': { on: 'two-cups', act: (w, s) => skipSet(w, PHONE, { ...ofSet(s), reason: 'rather-not' }) },
  'pass the phone on': { on: 'tasted', act: (w) => passPhoneOn(w, PHONE), done: 'phone-passed-on' },
  'set a seat aside': {
    on: 'tasted',
    act: (w, s) => setSeatAside(w, s.cafe.owner, s.panelId, 1, 'Left early'),
    done: 'set-aside-already',
  },
  'mark a seat left': { on: 'tasted', act: (w, s) => markSeatLeft(w, s.cafe.owner, s.panelId, 1), done: 'not-open' },
  'put a seat on paper': { on: 'open', act: (w, s) => putSeatOnPaper(w, s.cafe.owner, s.panelId, 3) },
  'type a sheet in': {
    on: 'tasted',
    act: (w, s) => {
      const [first] = codesOf(s, 2)
      const cups = [{ code: first?.code ?? '', answers: [6, 5], skip: null, comment: null }]
      return enterPaperScores(w, s.cafe.owner, s.panelId, {
        seat: 2,
        name: 'Ana',
        unaffected: 'yes',
        consent: 'yes',
        unseen: 'yes',
        was: '',
        cups,
      })
    },
  },
  'close a panel': { on: 'tasted', act: (w, s) => closePanel(w, s.cafe.owner, s.panelId), done: 'closed-already' },
  decide: {
    on: 'closed',
    act: (w, s) =>
      decide(
        w,
        s.cafe.owner,
        s.panelId,
        { kind: 'adopt', trialId: s.cafe.trialIds[0], reason: 'Liked best' },
        decisionMark(0, null),
      ),
    done: 'decided-since',
  },
}

let folder: string
const scenes = new Map<Stage, Scene>()
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-faults-'))
  for (const stage of ['draft', 'open', 'tasted', 'two-cups', 'closed'] as const)
    scenes.set(stage, await prepare(stage))
})
afterAll(async () => {
  for (const { cafe } of scenes.values()) await cafe.close()
  rmSync(folder, { recursive: true, force: true })
})

function done<Value>(outcome: Result<Value>): Value {
  if (!outcome.ok) throw new RangeError(`the scene was refused: ${outcome.reason}`)
  return outcome.value
}

async function prepare(stage: Stage): Promise<Scene> {
  const cafe = await cafeForTest()
  const { world, owner, db } = cafe
  // the fixture counts lines and inputs from 0, our acts from 1
  for (const table of ['TrialLine', 'BatchInput'])
    for (const by of ['+ 100', '- 99']) await db.$executeRawUnsafe(`UPDATE "${table}" SET position = position ${by}`)
  const ofTwo = stage === 'two-cups'
  const panelId = ofTwo ? await openChoicePanel(cafe) : done(await planPanel(world, owner, cafe.recipeId, cafe.plan()))
  if (stage !== 'draft' && !ofTwo) done(await openPanel(world, owner, panelId))
  const { joinToken } = await db.panel.findUniqueOrThrow({ where: { id: panelId }, select: { joinToken: true } })
  const found = await db.serving.findMany({ where: { panelId }, include: { seat: true }, orderBy: { position: 'asc' } })
  const servings = found.map(({ id, code, seat }) => ({ id, code, seat: seat.number }))
  let at = { sitting: '', code: '' }
  if (ofTwo) {
    done(await sit(world, joinToken, PHONE))
    at = { sitting: done(await readSeatState(world, PHONE)).sitting, code: '' }
    const first = { ...at, set: 1, attribute: 0, answer: [1], revision: 1, key: `${key}-before` }
    done(await storeSetAnswer(world, PHONE, { ...first, act: 'answer' }))
  }
  if (stage === 'tasted' || stage === 'closed') {
    done(await sit(world, joinToken, PHONE))
    const code = servings.find(({ seat }) => seat === 1)?.code ?? ''
    at = { sitting: done(await readSeatState(world, PHONE)).sitting, code }
    done(await storeScore(world, PHONE, { ...at, attribute: 0, value: 7, revision: 1, key: `${key}-before` }))
    done(await putSeatOnPaper(world, owner, panelId, 2))
  }
  if (stage === 'closed') done(await closePanel(world, owner, panelId))
  await db.$queryRawUnsafe('PRAGMA wal_checkpoint(TRUNCATE)')
  const file = join(folder, `${stage}.db`)
  copyFileSync(cafe.file, file)
  return { cafe, panelId, joinToken, at, servings, file }
}

/** One act on a copy of its scene. @returns how many calls it made when nothing failed */
async function tried(name: string, row: Row, failure: Failure | null): Promise<number> {
  const scene = scenes.get(row.on)
  if (!scene) throw new RangeError(`no scene ${row.on}`)
  const file = join(folder, 'tried.db')
  for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true })
  copyFileSync(scene.file, file)
  const failing = failingDatabase(file)
  const world = { ...scene.cafe.world, db: failing.db }
  const what = `${name}, ${JSON.stringify(failure)}`
  try {
    await failing.db.cafe.count() // connected
    failing.fail(failure)
    const first = await row.act(world, scene).catch(() => null)
    const { calls, hasFailed } = failing
    failing.fail(null)
    expect(hasFailed, what).toBe(failure !== null)
    if (first) expect(first, what).toMatchObject({ ok: true })
    const stands = first !== null || failure?.manner === 'unanswered'
    if (!stands) expect(exactDump(file), what).toEqual(exactDump(scene.file))
    expect(await checkBooks(failing.db), what).toEqual([])
    const again = await row.act(world, scene)
    if (stands && row.done !== undefined) expect(again, what).toMatchObject({ ok: false, reason: row.done })
    else expect(again, what).toMatchObject({ ok: true })
    expect(await checkBooks(failing.db), what).toEqual([])
    return calls
  } finally {
    await failing.db.$disconnect()
  }
}

const EVERY = process.env['EVERY_FAULT'] === '1'

test.each(Object.entries(rows))('%s: all of it or nothing, whichever call fails', async (name, row) => {
  const calls = await tried(name, row, null)
  expect(calls).toBeGreaterThan(2)
  const some = [1, Math.ceil(calls / 2), calls]
  const chosen = EVERY ? Array.from({ length: calls }, (_, place) => place + 1) : [...new Set(some)]
  for (const at of chosen) await tried(name, row, { at, manner: 'once' })
  await tried(name, row, { at: 'commit', manner: 'once' })
  await tried(name, row, { at: 'commit', manner: 'unanswered' })
})

/** Files that act and have no row above yet: of tasting, pouring and deciding these alone. */
const NO_ROW_YET: Readonly<Record<string, string>> = {
  'pour/open-list': 'its answer is an id that is new each time: an opening more is no harm',
  'result/share-result': 'its link is new each time: an old one is withdrawn by hand',
  'taste/at-serving': 'the transaction of the phone’s acts: tried through score, skip and comment',
  'taste/at-set': 'the transaction of the phone’s acts about a set: tried through answer, finish and skip',
  'taste/continue-seat': 'no row yet',
  'taste/meet-member': 'no row yet',
  'taste/reach-try': 'no row yet',
}

test('every file of tasting, pouring and deciding that acts has a row, or is named with why not', () => {
  const acting = ['pour', 'taste', 'result'].flatMap((room) =>
    readdirSync(join('lib/tasks', room))
      .filter((file) => /inTransaction\(/.test(readFileSync(join('lib/tasks', room, file), 'utf8')))
      .map((file) => `${room}/${file.replace(/\.ts$/, '')}`),
  )
  const own = readFileSync('test/integration/faults.test.ts', 'utf8')
  const tasks = [...own.matchAll(/^import \{ \w+ \} from '@\/lib\/tasks\/([\w-]+\/[\w-]+)'$/gm)].map(([, path]) => path)
  expect(acting.filter((file) => !tasks.includes(file)).toSorted()).toEqual(Object.keys(NO_ROW_YET).toSorted())
})
