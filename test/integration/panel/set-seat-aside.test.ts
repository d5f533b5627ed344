/**
 * A seat that the house does not trust. The eight of panel-of-eight.R sit at seats 1 to 8; at seat 9 somebody scores against
 * them. What is read without seat 9 must be what R found of the eight.
 * Made   test/reference/make/panel-of-eight.R, tolerance 1e-6
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { runStats } from '@/lib/commands/stats/run-stats'
import { PaperForm } from '@/lib/forms/paper-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { setSeatAside, takeSeatBackIn } from '@/lib/tasks/pour/set-seat-aside'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { decide } from '@/lib/tasks/result/decide'
import { readEvidence } from '@/lib/tasks/result/decision-evidence'
import { exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult, type PanelResult } from '@/lib/tasks/result/read-result'
import { readShared } from '@/lib/tasks/result/read-shared'
import { shareResult } from '@/lib/tasks/result/share-result'
import { continueSeat } from '@/lib/tasks/taste/continue-seat'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { fromR, scoreAsInR } from '../../support/panel-of-eight'

/** R, of the eight: B over A by 1.2 to 2.6. */
const OF_EIGHT = 'Cup B (Velvetine 2) is liked better than cup A (Velvetine 1), by 1.2 to 2.6 points.'
const WHY = 'Scored before any tray had come'
const MINUTE = 60_000

let cafe: TestCafe
let panelId: string
let browser: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan({ seatCount: 9, aspects: [] }))
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
  await scoreAsInR(cafe, panelId)
  browser = cafe.world.token()
  await takeSeat(cafe.world, { kind: 'join', token: await joinToken() }, { browser, userId: null, name: 'Stuffer' })
  for (const letter of ['A', 'B', 'C'] as const) expect(await scoreAtNine(letter)).toMatchObject({ ok: true })
  cafe.pass(MINUTE)
})
afterEach(() => cafe.close())

const joinToken = async () => (await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })).joinToken
const aside = (seat = 9, why = WHY) => setSeatAside(cafe.world, cafe.owner, panelId, seat, why)
const backIn = (seat = 9) => takeSeatBackIn(cafe.world, cafe.owner, panelId, seat)
const seatRow = (number = 9) => cafe.db.seat.findFirstOrThrow({ where: { panelId, number } })

async function close() {
  cafe.pass(MINUTE)
  await closePanel(cafe.world, cafe.owner, panelId)
  cafe.pass(MINUTE)
}

async function result(): Promise<PanelResult> {
  const found = await readResult(cafe.world, cafe.owner, panelId)
  if (!found) throw new Error('no result')
  return found
}

/** Seat 9 says the opposite of what the eight found: A 9, B 1, C 9. */
async function scoreAtNine(letter: 'A' | 'B' | 'C', revision = 1) {
  const trialId = cafe.trialIds['ABC'.indexOf(letter)] ?? ''
  const serving = await cafe.db.serving.findFirstOrThrow({
    where: { seat: { panelId, number: 9 }, cup: { trialId } },
  })
  const state = await readSeatState(cafe.world, browser)
  const sitting = state.ok ? state.value.sitting : ''
  const value = letter === 'B' ? 1 : 9
  const key = `a-key-${letter}-${revision}`
  return storeScore(cafe.world, browser, { sitting, code: serving.code, attribute: 0, value, revision, key })
}

/** Without seat 9 there is what R found; with it there is not. */
function agreesWithR({ claims }: Pick<PanelResult, 'claims'>): boolean {
  return fromR.pairs.every(({ a, b, difference }, place) => {
    const ours = claims.find(({ first, second }) => [first, second].sort().join('') === [a, b].sort().join(''))
    const [low = NaN, high = NaN] = fromR.joint95All[place] ?? []
    if (!ours?.interval) return false
    const sign = ours.first === a ? 1 : -1
    const [from, to] = sign === 1 ? ours.interval : [-ours.interval[1], -ours.interval[0]]
    return [sign * ours.difference - difference, from - low, to - high].every((off) => Math.abs(off) < 1e-6)
  })
}

async function statsOnFile(...more: string[]) {
  const csv = (await exportScores(cafe.world, cafe.owner, panelId)) ?? ''
  const words = (await readReproduced(cafe.world, cafe.owner, panelId))?.command ?? ''
  const argv = words.match(/'[^']*'|\S+/g)?.map((word) => word.replaceAll("'", '')) ?? []
  let [out, err] = ['', '']
  const io = {
    read: () => new TextEncoder().encode(csv),
    out: (text: string) => (out += text),
    err: (line: string) => (err += line),
  }
  expect([await runStats([...argv, ...more], io), err]).toEqual([0, ''])
  return JSON.parse(out) as { claims: unknown; cups: unknown; pairs: unknown; model: unknown }
}
const asJson = (what: unknown) => JSON.parse(JSON.stringify(what)) as unknown

test('set aside before closing: the claim is R’s of the eight, and the reading with every seat stands beside', async () => {
  expect(await aside()).toEqual({ ok: true, value: null })
  await close()
  const found = await result()
  expect(found.verdict.sentence).toContain(OF_EIGHT)
  expect(found.found.how).toBe('closing')
  expect(found.today).toBeNull()
  expect(agreesWithR(found)).toBe(true)
  expect(found.asideReadings).toMatchObject([{ which: 'with-all', seats: 1 }])
  expect(found.asideReadings[0]?.verdict.sentence).not.toContain(OF_EIGHT)
  expect(found.asideReadings[0]?.claims[0]?.tasters).toBe(9)
  expect(found.seatsAside).toMatchObject([{ seat: 9, when: 'before-closing', why: WHY, by: 'Ottoline' }])
  expect(found.spread.map(({ counts }) => counts.reduce((a, b) => a + b))).toEqual([8, 8, 8])
})

test('set aside after closing: the claim keeps it, said so, and R’s of the eight stands beside', async () => {
  await close()
  const before = await result()
  expect(agreesWithR(before)).toBe(false)
  expect(await aside()).toEqual({ ok: true, value: null })
  const after = await result()
  expect(after.verdict).toEqual(before.verdict)
  expect(after.claims).toEqual(before.claims)
  expect(after.today).toBeNull()
  expect(after.seatsAside).toMatchObject([{ seat: 9, when: 'after-closing', why: WHY }])
  expect(after.asideReadings).toMatchObject([{ which: 'without-any', seats: 1 }])
  expect(after.asideReadings[0]?.verdict.sentence).toContain(OF_EIGHT)
  expect(agreesWithR({ claims: after.asideReadings[0]?.claims ?? [] })).toBe(true)
})

test('one before and one after: the claim is without the first alone, and both other readings stand beside', async () => {
  await aside(9)
  await close()
  await aside(1, 'Sat beside the pourer')
  const found = await result()
  expect(agreesWithR(found)).toBe(true)
  expect(found.asideReadings.map(({ which, seats }) => [which, seats])).toEqual([
    ['with-all', 1],
    ['without-any', 2],
  ])
  expect(found.asideReadings.map(({ claims }) => claims[0]?.tasters)).toEqual([9, 7])
})

test('set aside and closed in one millisecond, or by a clock that was set back, still counts as before closing', async () => {
  await aside()
  cafe.pass(-2 * MINUTE)
  await closePanel(cafe.world, cafe.owner, panelId)
  expect(agreesWithR(await result())).toBe(true)
  cafe.pass(-MINUTE)
  await aside(1)
  expect((await result()).seatsAside.map(({ seat, when }) => [seat, when])).toEqual([
    [1, 'after-closing'],
    [9, 'before-closing'],
  ])
})

test('taken back in while open it counts; after closing only what was set aside after it can be', async () => {
  await aside()
  expect(await backIn()).toEqual({ ok: true, value: null })
  expect(await backIn()).toMatchObject({ reason: 'not-set-aside' })
  await aside(1)
  await close()
  expect((await result()).spread[0]?.counts.reduce((a, b) => a + b)).toBe(8)
  expect(await backIn(1)).toMatchObject({ reason: 'set-aside-blind' })
  await aside(9)
  expect(await backIn(9)).toEqual({ ok: true, value: null })
  expect((await result()).asideReadings.map(({ which }) => which)).toEqual(['with-all'])
})

test('while open nothing more of it is taken, its phone is told, and the seat is not free', async () => {
  await aside()
  expect(await readSeatState(cafe.world, browser)).toMatchObject({ value: { gone: 'set-aside', cups: [] } })
  const sitting = await readSeatState(cafe.world, browser)
  expect(sitting.ok && sitting.value.open).toBe(true)
  expect(await scoreAtNine('A', 2)).toMatchObject({ ok: false, reason: 'set-aside' })
  const other = { browser: cafe.world.token(), userId: null, name: 'Next' }
  expect(await takeSeat(cafe.world, { kind: 'join', token: await joinToken() }, other)).toMatchObject({
    reason: 'full',
  })
  const { cardToken } = await seatRow()
  expect(await takeSeat(cafe.world, { kind: 'card', token: cardToken }, other)).toMatchObject({ reason: 'set-aside' })
  expect(await continueSeat(cafe.world, cardToken, other)).toMatchObject({ reason: 'set-aside' })
  const progress = await readProgress(cafe.world, cafe.owner, panelId)
  expect(progress?.seats[8]).toMatchObject({ state: 'set-aside', aside: WHY })
  await backIn()
  expect(await readSeatState(cafe.world, browser)).toMatchObject({ value: { gone: null } })
  expect(await scoreAtNine('A', 2)).toMatchObject({ ok: true })
})

test('after closing its phone is not told: what still waits there is kept late as from any other', async () => {
  await close()
  await aside()
  expect(await readSeatState(cafe.world, browser)).toMatchObject({ value: { gone: null, open: false } })
  expect(await scoreAtNine('A', 2)).toMatchObject({ reason: 'kept-late' })
})

test('paper takes nothing of it either', async () => {
  await aside()
  expect(await putSeatOnPaper(cafe.world, cafe.owner, panelId, 9)).toEqual({ ok: false, reason: 'set-aside' })
  await cafe.db.seat.updateMany({ where: { panelId, number: 9 }, data: { onPaper: true } })
  const { code } = await cafe.db.serving.findFirstOrThrow({ where: { seat: { panelId, number: 9 } } })
  const sheet = PaperForm.parse({
    seat: '9',
    name: 'Ana',
    unaffected: 'yes',
    consent: 'yes',
    unseen: 'yes',
    cups: [{ code, answers: ['9'] }],
  })
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, sheet)).toMatchObject({ reason: 'set-aside' })
})

test('it is refused for a seat nobody took, for none, twice, and for another café', async () => {
  await cafe.db.seat.updateMany({ where: { panelId, number: 9 }, data: { takenAt: null } })
  expect(await aside(9)).toMatchObject({ reason: 'not-taken' })
  expect(await aside(77)).toMatchObject({ reason: 'no-such-seat' })
  await aside(1)
  expect(await aside(1)).toMatchObject({ reason: 'set-aside-already' })
  const stranger = await setSeatAside(cafe.world, cafe.stranger, panelId, 2, WHY)
  expect(stranger).toMatchObject({ reason: 'no-such-seat' })
  expect(await takeSeatBackIn(cafe.world, cafe.stranger, panelId, 1)).toMatchObject({ reason: 'no-such-seat' })
  expect(await cafe.db.seat.count({ where: { setAsideAt: { not: null } } })).toBe(1)
})

test('the diary keeps who, which seat, why and when, and that it was taken back', async () => {
  await aside()
  await backIn()
  const lines = await cafe.db.auditRow.findMany({ where: { act: { in: ['seat-set-aside', 'seat-taken-back-in'] } } })
  const { id } = await seatRow()
  const by = { actorId: cafe.owner.userId, subjectKind: 'seat', subjectId: id }
  expect(lines).toMatchObject([
    { ...by, detail: JSON.stringify({ seat: 9, why: WHY, when: 'before closing' }) },
    { ...by, detail: JSON.stringify({ seat: 9 }) },
  ])
})

test.each(['before', 'after'] as const)('set aside %s closing, the file gives the page’s numbers', async (when) => {
  if (when === 'before') await aside()
  await close()
  if (when === 'after') await aside()
  const page = asJson((await result()).primary) as Awaited<ReturnType<typeof statsOnFile>>
  const file = await statsOnFile()
  expect(file.claims).toEqual(page.claims)
  expect(file.cups).toEqual(page.cups)
  expect(file.pairs).toEqual(page.pairs)
  expect(file.model).toEqual(page.model)
  // Without any seat that is set aside it is R's of the eight either way.
  const [claim] = (await statsOnFile('--where', 'set_aside=no')).claims as { difference: number }[]
  expect(claim?.difference).toBeCloseTo(fromR.pairs[0]?.difference ?? NaN, 6)
  const csv = (await exportScores(cafe.world, cafe.owner, panelId)) ?? ''
  const [head = '', ...lines] = csv
    .trim()
    .split('\r\n')
    .map((line) => line.split(','))
  const cell = (line: readonly string[], name: string) => line[head.indexOf(name)]
  const ofNine = lines.filter((line) => cell(line, 'taster') === '9')
  expect(ofNine.map((line) => cell(line, 'set_aside'))).toEqual(Array(3).fill(`${when}-closing`))
  const column = when === 'before' ? 'set_aside_score' : 'score'
  expect(ofNine.map((line) => cell(line, column)).sort()).toEqual(['1', '9', '9'])
  const whole = JSON.parse((await exportPanel(cafe.world, cafe.owner, panelId)) ?? '{}')
  expect(whole.setAsideSeats).toMatchObject([{ seat: 9, when: `${when}-closing`, why: WHY }])
})

test('a cup that a seat set aside would rather not drink is in no reading of the claim', async () => {
  const { id } = await cafe.db.serving.findFirstOrThrow({ where: { seat: { panelId, number: 9 } } })
  await cafe.db.serving.update({
    where: { id },
    data: { skippedAt: cafe.world.now(), lockedAt: cafe.world.now(), skipReason: 'rather-not' },
  })
  await aside()
  await close()
  const page = asJson((await result()).primary) as Awaited<ReturnType<typeof statsOnFile>>
  expect((await statsOnFile()).claims).toEqual(page.claims)
  expect((await result()).missing.skipped).toEqual([])
})

test('a decided panel too: what it was told and decided on stays, a later decision keeps both readings', async () => {
  await close()
  const told = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const choose = { kind: 'adopt', trialId: cafe.trialIds[1], reason: 'Liked better.' } as const
  await decide(cafe.world, cafe.owner, panelId, choose)
  const first = await cafe.db.decision.findFirstOrThrow()
  expect(await aside()).toEqual({ ok: true, value: null })
  const now = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  expect(now.closingAnswer).toBe(told.closingAnswer)
  expect(await cafe.db.decision.findFirstOrThrow({ where: { id: first.id } })).toEqual(first)
  cafe.pass(MINUTE)
  await decide(cafe.world, cafe.owner, panelId, choose)
  const second = await cafe.db.decision.findFirstOrThrow({ where: { id: { not: first.id } } })
  expect(readEvidence(first.evidence)?.aside).toEqual([])
  const kept = readEvidence(second.evidence)?.aside
  expect(kept).toMatchObject([{ which: 'without-any', seats: 1, sentence: expect.stringContaining(OF_EIGHT) }])
  // Decisions of before seats could be set aside say nothing of it, and are read.
  const { aside: _, ...older } = JSON.parse(first.evidence ?? '{}')
  expect(readEvidence(JSON.stringify(older))?.aside).toEqual([])
})

test('a link shows that there is another reading, and neither seat nor reason', async () => {
  await aside()
  await close()
  const shared = await shareResult(cafe.world, cafe.owner, panelId)
  const read = await readShared(cafe.world, shared.ok ? shared.value : '')
  expect(read?.result.asideReadings).toMatchObject([{ which: 'with-all', seats: 1 }])
  expect(JSON.stringify(read)).not.toContain(WHY)
})
