import { afterEach, beforeEach, expect, test } from 'vitest'
import { PaperForm } from '@/lib/forms/paper-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { markSeatLeft } from '@/lib/tasks/pour/mark-seat-left'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { readProgress } from '@/lib/tasks/pour/read-progress'
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

async function sheet(seat: number, cups: readonly Record<string, unknown>[], name = 'Wilhelmina') {
  const was = (await readPaperSeat(cafe.world, cafe.owner, panelId, seat))?.was
  return PaperForm.parse({ seat: String(seat), name, unaffected: 'yes', consent: 'yes', unseen: 'yes', was, cups })
}

async function codesOf(seat: number): Promise<readonly string[]> {
  return (await readPaperSeat(cafe.world, cafe.owner, panelId, seat))?.cups.map((cup) => cup.code) ?? []
}

test('a sheet is typed in by seat and code, counted like any other, and corrected by typing it again', async () => {
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 2)
  const [a = '', b = '', c = ''] = await codesOf(2)
  const first = await sheet(2, [
    { code: a, answers: ['7', '5'], comment: 'round' },
    { code: b, answers: ['3', undefined] },
    { code: c, skip: 'spilt-or-missing' },
  ])
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, first)).toEqual({ ok: true, value: { cups: 3 } })
  const scores = await cafe.db.score.findMany({ include: { serving: true, attribute: true } })
  const asWritten = () =>
    scores.map((one) => [one.serving.code, one.attribute.position, one.value, one.source]).toSorted()
  expect(asWritten()).toEqual(
    [
      [a, 0, 7, 'paper'],
      [a, 1, 5, 'paper'],
      [b, 0, 3, 'paper'],
    ].toSorted(),
  )
  expect(scores.every((one) => one.enteredById === cafe.owner.userId)).toBe(true)
  const progress = await readProgress(cafe.world, cafe.owner, panelId)
  expect(progress?.seats[1]).toMatchObject({
    name: 'Wilhelmina',
    scored: 2,
    skipped: 1,
    state: 'finished',
    onPaper: true,
  })
  expect(await cafe.db.taster.count()).toBe(1)

  const again = await sheet(2, [{ code: b, answers: ['4'] }])
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, again)).toMatchObject({ ok: true })
  const corrected = await cafe.db.score.findFirstOrThrow({ where: { serving: { code: b } } })
  expect(corrected).toMatchObject({ value: 4, revision: 2 })
  expect(await cafe.db.score.count()).toBe(3)
  const kept = await readPaperSeat(cafe.world, cafe.owner, panelId, 2)
  expect(kept?.cups.find((cup) => cup.code === a)).toMatchObject({ answers: [7, 5], comment: 'round' })
})

test('a code of another tray, or the same twice, leaves the whole sheet unwritten', async () => {
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 1)
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 2)
  const [mine = ''] = await codesOf(1)
  const own = await codesOf(1)
  const theirs = (await codesOf(2)).find((code) => !own.includes(code)) ?? ''
  const wrong = await sheet(1, [
    { code: mine, answers: ['7'] },
    { code: theirs, answers: ['3'] },
  ])
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, wrong)).toMatchObject({
    reason: 'code-elsewhere',
    detail: { field: 'cups[1].code' },
  })
  const twice = await sheet(1, [
    { code: mine, answers: ['7'] },
    { code: mine, answers: ['3'] },
  ])
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, twice)).toMatchObject({ reason: 'code-twice' })
  expect(await cafe.db.score.count()).toBe(0)
  expect(await cafe.db.taster.count()).toBe(0)
})

test('a sheet is only taken for a seat on paper, in this café, while the panel is open', async () => {
  const codes = (await cafe.db.serving.findMany({ where: { seat: { panelId, number: 3 } } })).map((one) => one.code)
  const typed = await sheet(3, [{ code: codes[0], answers: ['6'] }])
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, typed)).toMatchObject({ reason: 'not-on-paper' })
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 3)
  expect(await enterPaperScores(cafe.world, cafe.stranger, panelId, typed)).toMatchObject({ reason: 'no-such-seat' })
  await closePanel(cafe.world, cafe.owner, panelId)
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, typed)).toMatchObject({ reason: 'no-such-seat' })
  expect(await cafe.db.score.count()).toBe(0)
})

test('a paper form refuses what is on no scale, a score with a reason, and liking left out', () => {
  const problems = (cups: readonly Record<string, unknown>[]) => {
    const read = PaperForm.safeParse({ seat: '1', name: 'W', unaffected: 'yes', consent: 'yes', unseen: 'yes', cups })
    return read.success ? [] : read.error.issues.map((issue) => issue.path.join('.'))
  }
  expect(problems([{ code: '417', answers: ['1000'] }])).toEqual(['cups.0.answers.0'])
  expect(problems([{ code: '417', answers: ['ten'] }])).toEqual(['cups.0.answers.0'])
  expect(problems([{ code: '417', answers: ['7'], skip: 'not-for-me' }])).toEqual(['cups.0.skip'])
  expect(problems([{ code: '417', answers: [undefined, '7'] }])).toEqual(['cups.0.answers.0'])
  expect(problems([{ code: '41', answers: ['7'] }])).toEqual(['cups.0.code'])
  expect(problems([{ code: '417', answers: ['9', '1'] }])).toEqual([])
  expect(PaperForm.safeParse({ seat: '1', name: 'W', cups: [] }).success).toBe(false)
})

test('a seat on paper is nobody’s next free seat', async () => {
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 5)
  const seat = await cafe.db.seat.findFirstOrThrow({ where: { panelId, number: 5 } })
  expect(seat).toMatchObject({ onPaper: true })
  expect(seat.takenAt).not.toBeNull()
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 5)
  expect(await cafe.db.auditRow.count({ where: { act: 'seat-on-paper' } })).toBe(1)
})

test('a seat leaves once', async () => {
  expect(await markSeatLeft(cafe.world, cafe.owner, panelId, 2)).toMatchObject({ ok: true })
  expect(await markSeatLeft(cafe.world, cafe.owner, panelId, 2)).toMatchObject({ ok: false })
  expect(await markSeatLeft(cafe.world, cafe.owner, panelId, 99)).toMatchObject({ ok: false })
  expect(await cafe.db.auditRow.count({ where: { act: 'seat-left' } })).toBe(1)
})

test('of two owners who close at once one does, and the other is told who', async () => {
  const answers = await Promise.all([
    closePanel(cafe.world, cafe.owner, panelId),
    closePanel(cafe.world, cafe.secondOwner, panelId),
  ])
  const panel = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const closer = panel.closedById === cafe.owner.userId ? 'Ottoline' : 'Barnaby'
  expect(answers.filter((answer) => answer.ok)).toHaveLength(1)
  expect(answers.find((answer) => !answer.ok)).toMatchObject({ reason: 'closed-already', detail: { by: closer } })
  expect(panel.stage).toBe('closed')
  expect(await cafe.db.auditRow.count({ where: { act: 'panel-closed' } })).toBe(1)
  expect(await cafe.db.auditRow.count({ where: { act: 'panel-unblinded' } })).toBe(1)
})

test('closing counts who had not finished, and only an open panel of this café closes', async () => {
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 1)
  expect(await closePanel(cafe.world, cafe.stranger, panelId)).toMatchObject({ reason: 'not-found' })
  expect(await closePanel(cafe.world, cafe.owner, panelId)).toEqual({ ok: true, value: null })
  const row = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'panel-closed' } })
  expect(JSON.parse(row.detail ?? '{}')).toEqual({ seats: 6, finished: 0, unfinished: 1 })
})

test('a draft cannot be closed', async () => {
  const draft = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!draft.ok) throw new Error(draft.reason)
  expect(await closePanel(cafe.world, cafe.owner, draft.value)).toMatchObject({ reason: 'not-open' })
})
