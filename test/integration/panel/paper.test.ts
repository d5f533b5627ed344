/** Scores from paper beside a phone: neither sees the other's, and nothing of either is lost. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PaperForm } from '@/lib/forms/paper-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { markCodeSeen } from '@/lib/tasks/taste/mark-code-seen'
import { openList } from '@/lib/tasks/pour/open-list'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readResult } from '@/lib/tasks/result/read-result'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
})
afterEach(() => cafe.close())

/** A phone at the next free seat, with what it may send. */
async function phone(name = 'Ana') {
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const browser = cafe.world.token()
  const taken = await takeSeat(cafe.world, { kind: 'join', token: joinToken }, { browser, userId: null, name })
  if (!taken.ok) throw new Error(taken.reason)
  const state = await readSeatState(cafe.world, browser)
  if (!state.ok) throw new Error(state.reason)
  const { sitting, cups, seat } = state.value
  const code = (cup: number) => cups[cup]?.code ?? ''
  let sent = 0
  const message = (cup: number) => ({ sitting, code: code(cup), revision: 1, key: `a-key-of-its-own-${(sent += 1)}` })
  return {
    browser,
    seat,
    code,
    message,
    score: (cup: number, attribute: number, value: number) =>
      storeScore(cafe.world, browser, { ...message(cup), attribute, value }),
    comment: (cup: number, comment: string) => storeComment(cafe.world, browser, { ...message(cup), comment }),
    lock: (cup: number) => lockServing(cafe.world, browser, message(cup)),
    skip: (cup: number) => skipServing(cafe.world, browser, { ...message(cup), reason: 'rather-not' }),
    seen: (cup: number) => markCodeSeen(cafe.world, browser, message(cup)),
    state: () => readSeatState(cafe.world, browser),
    async finish(cup: number, value: number) {
      await this.score(cup, 0, value)
      await this.score(cup, 1, value)
      return this.lock(cup)
    },
  }
}

const put = (seat: number) => putSeatOnPaper(cafe.world, cafe.owner, panelId, seat)
const paper = (seat: number) => readPaperSeat(cafe.world, cafe.owner, panelId, seat)
const scoresOf = async (code: string) =>
  (
    await cafe.db.score.findMany({
      where: { serving: { code } },
      select: { value: true, source: true, revision: true },
      orderBy: { attribute: { position: 'asc' } },
    })
  ).map(({ value, source, revision }) => `${source} ${value} r${revision}`)

/** Types a sheet as the page would send it: with the mark of what stood when the page was opened. */
async function type(seat: number, cups: readonly Record<string, unknown>[], was?: string) {
  const sheet = {
    seat: String(seat),
    name: 'Ana',
    unaffected: 'yes',
    consent: 'yes',
    unseen: 'yes',
    was: was ?? (await paper(seat))?.was,
    cups,
  }
  return enterPaperScores(cafe.world, cafe.owner, panelId, PaperForm.parse(sheet))
}

test('what a phone has answered never comes to the paper form: no score, no comment, no skip', async () => {
  const ana = await phone()
  await ana.score(0, 0, 8)
  await ana.score(0, 1, 2)
  await ana.comment(0, 'secret of the phone')
  await ana.lock(0)
  await ana.skip(1)
  await put(ana.seat)
  const seat = await paper(ana.seat)
  expect(seat?.cups.toSorted((a, b) => a.code.localeCompare(b.code))).toEqual(
    [
      { code: ana.code(0), phone: 'answer', answers: [null, null], skip: null, comment: null },
      { code: ana.code(1), phone: 'answer', answers: [null, null], skip: null, comment: null },
      { code: ana.code(2), phone: null, answers: [null, null], skip: null, comment: null },
    ].toSorted((a, b) => a.code.localeCompare(b.code)),
  )
  expect(JSON.stringify(seat)).not.toMatch(/secret|rather-not|[^\d]8[^\d]/)
})

test('a cup with a phone’s comment alone takes scores from paper, and keeps the comment unread', async () => {
  const ana = await phone()
  await ana.comment(0, 'secret of the phone')
  await put(ana.seat)
  const cup = (await paper(ana.seat))?.cups.find(({ code }) => code === ana.code(0))
  expect(cup).toMatchObject({ phone: 'comment', comment: null })
  expect(await type(ana.seat, [{ code: ana.code(0), answers: ['4'], comment: 'of the sheet' }])).toMatchObject({
    reason: 'answered-on-phone',
  })
  expect(await type(ana.seat, [{ code: ana.code(0), answers: ['4'] }])).toMatchObject({ ok: true })
  const row = await cafe.db.serving.findFirstOrThrow({ where: { code: ana.code(0) } })
  expect(row).toMatchObject({ comment: 'secret of the phone', commentSource: 'phone' })
})

test('comment and skip of the first version, kept without a source, are not shown and not typed over', async () => {
  const ana = await phone()
  await ana.comment(0, 'secret of the phone')
  await ana.skip(1)
  await cafe.db.serving.updateMany({ where: { panelId }, data: { commentSource: null, skipSource: null } })
  await put(ana.seat)
  const seat = await paper(ana.seat)
  expect(JSON.stringify(seat)).not.toMatch(/secret|rather-not/)
  expect(seat?.cups.find(({ code }) => code === ana.code(1))?.phone).toBe('answer')
  expect(await type(ana.seat, [{ code: ana.code(1), answers: ['4'] }])).toMatchObject({ reason: 'answered-on-phone' })
})

test('a sheet that names a cup answered on the phone is refused whole, with the codes', async () => {
  const ana = await phone()
  await ana.finish(0, 8)
  await ana.score(1, 0, 6)
  await put(ana.seat)
  const refused = await type(ana.seat, [
    { code: ana.code(0), answers: ['1', '1'] },
    { code: ana.code(1), comment: 'typed over' },
    { code: ana.code(2), answers: ['5'] },
  ])
  expect(refused).toMatchObject({ reason: 'answered-on-phone', detail: { codes: `${ana.code(0)}, ${ana.code(1)}` } })
  expect(await scoresOf(ana.code(0))).toEqual(['phone 8 r1', 'phone 8 r1'])
  expect(await scoresOf(ana.code(1))).toEqual(['phone 6 r1'])
  expect(await scoresOf(ana.code(2))).toEqual([])
  expect(await cafe.db.replacedAnswer.count()).toBe(0)
  expect(await cafe.db.auditRow.count({ where: { act: 'paper-scores-entered' } })).toBe(0)
})

test('left blank, a cup of the phone stays as it is while the others are typed in', async () => {
  const ana = await phone()
  await ana.finish(0, 8)
  await put(ana.seat)
  const blank = { code: ana.code(0), answers: [undefined, undefined] }
  expect(await type(ana.seat, [blank, { code: ana.code(1), answers: ['5'] }])).toEqual({ ok: true, value: { cups: 1 } })
  expect(await scoresOf(ana.code(0))).toEqual(['phone 8 r1', 'phone 8 r1'])
  expect(await scoresOf(ana.code(1))).toEqual(['paper 5 r1'])
})

test('a seat that has finished on its phone does not go to paper, however old the page', async () => {
  const ana = await phone()
  await ana.finish(0, 8)
  await ana.finish(1, 3)
  await ana.skip(2)
  expect(await put(ana.seat)).toEqual({ ok: false, reason: 'finished' })
  expect(await cafe.db.seat.findFirst({ where: { panelId, number: ana.seat } })).toMatchObject({ onPaper: false })
  expect((await paper(ana.seat))?.cups).toEqual([])
  expect((await ana.state()).ok).toBe(true)
})

test('a seat whose sheet is typed in whole stays on paper: it can be put there again and corrected', async () => {
  await put(3)
  const codes = (await paper(3))?.cups.map(({ code }) => code) ?? []
  await type(
    3,
    codes.map((code) => ({ code, answers: ['5', '5'] })),
  )
  expect(await put(3)).toMatchObject({ ok: true })
})

test('a phone whose seat went to paper is told so by every act, and nothing of it is stored', async () => {
  const ana = await phone()
  await ana.score(0, 0, 8)
  const before = await cafe.db.serving.findMany({ where: { seat: { panelId, number: ana.seat } } })
  await put(ana.seat)
  const gone = { ok: false, reason: 'on-paper' }
  expect(await ana.state()).toMatchObject({ ok: true, value: { seat: ana.seat, gone: 'on-paper', cups: [] } })
  expect(await ana.score(1, 0, 7)).toMatchObject(gone)
  expect(await ana.comment(1, 'too late')).toMatchObject(gone)
  expect(await ana.skip(1)).toMatchObject(gone)
  expect(await ana.seen(1)).toMatchObject(gone)
  expect(await ana.lock(0)).toMatchObject(gone)
  expect(await cafe.db.serving.findMany({ where: { seat: { panelId, number: ana.seat } } })).toEqual(before)
  expect(await cafe.db.score.count()).toBe(1)
})

test('a sending whose acknowledgement was lost is acknowledged also after its seat went to paper', async () => {
  const ana = await phone()
  const message = { ...ana.message(0), attribute: 0, value: 8 }
  await storeScore(cafe.world, ana.browser, message)
  await put(ana.seat)
  expect(await storeScore(cafe.world, ana.browser, message)).toMatchObject({ ok: true, value: { value: 8 } })
  // One that was never stored is not taken for stored because a sheet was typed in meanwhile.
  await type(ana.seat, [{ code: ana.code(1), answers: ['2'] }])
  expect(await ana.score(1, 0, 9)).toMatchObject({ ok: false, reason: 'on-paper' })
})

test('a 9 typed at the wrong cup, corrected: the cup is blank again, its comment gone, and open', async () => {
  await put(2)
  const [wrong = '', right = ''] = (await paper(2))?.cups.map(({ code }) => code) ?? []
  await type(2, [{ code: wrong, answers: ['9', '6'], comment: 'tasty' }, { code: right }])
  const first = cafe.world.now()
  cafe.pass(60_000)
  const corrected = await type(2, [
    { code: wrong, answers: [undefined, undefined] },
    { code: right, answers: ['9', '6'], comment: 'tasty' },
  ])
  expect(corrected).toEqual({ ok: true, value: { cups: 1 } })

  expect(await scoresOf(wrong)).toEqual([])
  expect(await scoresOf(right)).toEqual(['paper 9 r1', 'paper 6 r1'])
  const row = await cafe.db.serving.findFirstOrThrow({ where: { code: wrong, seat: { panelId, number: 2 } } })
  expect(row).toMatchObject({ comment: null, commentSource: null, lockedAt: null, skippedAt: null })
  const progress = await readProgress(cafe.world, cafe.owner, panelId)
  expect(progress?.seats[1]).toMatchObject({ scored: 1, skipped: 0 })

  const kept = await cafe.db.replacedAnswer.findMany({ orderBy: { value: 'desc' } })
  const by = { enteredById: cafe.owner.userId, at: first, revision: 1, source: 'paper' }
  const replaced = { replacedById: cafe.owner.userId, replacedAt: cafe.world.now(), servingId: row.id }
  expect(kept).toHaveLength(3)
  expect(kept.filter((one) => one.attributeId !== null)).toEqual([
    expect.objectContaining({ ...replaced, ...by, value: 9, comment: null }),
    expect.objectContaining({ ...replaced, ...by, value: 6, comment: null }),
  ])
  expect(kept.find((one) => one.attributeId === null)).toMatchObject({ ...replaced, comment: 'tasty', source: 'paper' })
})

test('a score, a skip and a comment typed differently keep what stood; the same again changes nothing', async () => {
  await put(2)
  const [a = '', b = ''] = (await paper(2))?.cups.map(({ code }) => code) ?? []
  const sheet = [
    { code: a, answers: ['9', '6'], comment: 'tasty' },
    { code: b, skip: 'spilt-or-missing' },
  ]
  await type(2, sheet)
  const rows = await cafe.db.serving.findMany({ where: { seat: { panelId, number: 2 } } })
  cafe.pass(60_000)
  expect(await type(2, sheet)).toMatchObject({ ok: true })
  expect(await cafe.db.replacedAnswer.count()).toBe(0)
  expect(await scoresOf(a)).toEqual(['paper 9 r1', 'paper 6 r1'])
  expect(await cafe.db.serving.findMany({ where: { seat: { panelId, number: 2 } } })).toEqual(rows)

  await type(2, [
    { code: a, answers: ['9', '3'], comment: 'tasty, round' },
    { code: b, answers: ['4', '4'] },
  ])
  expect(await scoresOf(a)).toEqual(['paper 9 r1', 'paper 3 r2'])
  const said = (await cafe.db.replacedAnswer.findMany()).map(({ value, comment, skipReason }) =>
    [value, comment, skipReason].join('|'),
  )
  expect(said.toSorted()).toEqual(['6||', '|tasty|', '||spilt-or-missing'].toSorted())
  const seat = await paper(2)
  expect(seat?.cups.find(({ code }) => code === a)).toMatchObject({ answers: [9, 3], comment: 'tasty, round' })
  expect(seat?.cups.find(({ code }) => code === b)).toMatchObject({ answers: [4, 4], skip: null })
})

test('revisions count on after a score was taken back', async () => {
  await put(2)
  const [a = ''] = (await paper(2))?.cups.map(({ code }) => code) ?? []
  await type(2, [{ code: a, answers: ['9'] }])
  await type(2, [{ code: a }])
  await type(2, [{ code: a, answers: ['2'] }])
  expect(await scoresOf(a)).toEqual(['paper 2 r2'])
})

test('two who type the same sheet: the page opened before the other’s changes nothing, and is told', async () => {
  await put(2)
  const [a = '', b = ''] = (await paper(2))?.cups.map(({ code }) => code) ?? []
  const opened = (await paper(2))?.was
  await type(2, [{ code: a, answers: ['9'] }, { code: b }])
  const stale = await type(2, [{ code: a }, { code: b, answers: ['3'] }], opened)
  expect(stale).toMatchObject({ reason: 'typed-meanwhile' })
  expect(await scoresOf(a)).toEqual(['paper 9 r1'])
  expect(await scoresOf(b)).toEqual([])
  // A second tap on the same button is no other sheet.
  expect(await type(2, [{ code: a, answers: ['9'] }, { code: b }], opened)).toMatchObject({ ok: true })
})

test('who types and has opened a list is told that somebody else had better type', async () => {
  await put(2)
  expect((await paper(2))?.typistOpenedList).toBe(false)
  await openList(cafe.world, cafe.owner, panelId, 'filling')
  expect((await paper(2))?.typistOpenedList).toBe(true)
  expect((await readPaperSeat(cafe.world, cafe.secondOwner, panelId, 2))?.typistOpenedList).toBe(false)
})

test('after closing the result shows each correction: what stood, what stands, who, when', async () => {
  await put(2)
  const [a = '', b = ''] = (await paper(2))?.cups.map(({ code }) => code) ?? []
  await type(2, [
    { code: a, answers: ['9', '6'], comment: 'tasty' },
    { code: b, skip: 'rather-not' },
  ])
  cafe.pass(60_000)
  const at = cafe.world.now()
  await type(2, [
    { code: a, answers: ['4'], comment: 'tasty' },
    { code: b, answers: ['7', '7'] },
  ])
  expect(await readResult(cafe.world, cafe.owner, panelId)).toBeNull()
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  const cells = result?.corrections.map(({ seat, what, stood, stands, by }) => [seat, what, stood, stands, by])
  expect(cells?.toSorted()).toEqual(
    [
      [2, 'Overall liking', '9', '4', 'Ottoline'],
      [2, 'Sweetness', '6', null, 'Ottoline'],
      [2, 'skipped', 'rather-not', null, 'Ottoline'],
    ].toSorted(),
  )
  expect(result?.corrections.every((one) => one.at.getTime() === at.getTime())).toBe(true)
})
