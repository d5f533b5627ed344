/** Two cups on paper beside phones, and what is kept of whoever answered. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PaperForm } from '@/lib/forms/paper-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readBallots } from '@/lib/tasks/pour/read-ballots'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { readKeptOfMe } from '@/lib/tasks/privacy/read-kept'
import { readResult } from '@/lib/tasks/result/read-result'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { choicePhone, openChoicePanel } from '../../support/choice-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  panelId = await openChoicePanel(cafe)
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 6)
})
afterEach(() => cafe.close())

const sheet = (seat = 6) => readPaperSeat(cafe.world, cafe.owner, panelId, seat)
const codeOf = async (trial: number, seat = 6) => {
  const own = { seat: { panelId, number: seat }, cup: { trialId: cafe.trialIds[trial] ?? '' } }
  return (await cafe.db.serving.findFirstOrThrow({ where: own })).code
}

/** As the form sends it. */
async function type(answer: string, { skip = '', was = '', seat = '6' } = {}) {
  cafe.pass(1000)
  const ticks = { unaffected: 'yes', consent: 'yes', unseen: 'yes' }
  const set = { number: '1', ...(answer && { answer }), ...(skip && { skip }) }
  const typed = PaperForm.parse({ seat, name: 'Pia', ...ticks, was, sets: [set] })
  return enterPaperScores(cafe.world, cafe.owner, panelId, typed)
}

test('a sheet names both codes, never in the order of tasting, and one answer about them', async () => {
  const seen = await sheet()
  expect(seen).toMatchObject({ cups: [], asks: [{ kind: 'choose', none: true }], sets: [{ number: 1, answer: null }] })
  const codes = seen?.sets[0]?.codes ?? []
  expect(codes).toEqual(codes.toSorted())
})

test('what is typed counts as a phone’s answer does, and the set is done', async () => {
  expect(await type(await codeOf(1))).toEqual({ ok: true, value: { cups: 1 } })
  expect(await cafe.db.setAnswer.findMany()).toMatchObject([
    { source: 'paper', enteredById: cafe.owner.userId, revision: 1 },
  ])
  const set = await cafe.db.servingSet.findFirstOrThrow({ where: { panelId, seat: { number: 6 } } })
  expect(set.lockedAt).not.toBeNull()
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.choice).toMatchObject({ cup: 'B', preferred: 1, preferredOther: 0, none: 0 })
})

test('typed again it corrects, to no preference, to a reason and to blank; what stood is kept and told after closing', async () => {
  await type(await codeOf(1))
  expect(await type('none')).toMatchObject({ reason: 'typed-meanwhile' })
  await type('none', { was: (await sheet())?.was ?? '' })
  expect((await sheet())?.sets[0]?.answer).toEqual([])
  await type('', { skip: 'spilt-or-missing', was: (await sheet())?.was ?? '' })
  expect((await sheet())?.sets[0]).toMatchObject({ answer: null, skip: 'spilt-or-missing' })
  await type('', { was: (await sheet())?.was ?? '' })
  const set = await cafe.db.servingSet.findFirstOrThrow({ where: { panelId, seat: { number: 6 } } })
  expect(set).toMatchObject({ lockedAt: null, skippedAt: null, skipReason: null })
  await type(await codeOf(0), { was: (await sheet())?.was ?? '' })
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.choice).toMatchObject({ cup: 'A', preferred: 1 })
  const corrected = result?.corrections.map(({ what, stood, stands }) => [what, stood, stands])
  expect(corrected).toEqual([
    ['Which of the two is preferred', 'B', 'A'],
    ['Which of the two is preferred', 'no preference', 'A'],
    ['skipped', 'spilt-or-missing', null],
  ])
})

test('what a phone has answered is neither read nor typed over', async () => {
  const ana = await choicePhone(cafe.world, panelId)
  await ana.answer([1])
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, ana.seat)
  expect((await sheet(ana.seat))?.sets).toMatchObject([{ phone: true, answer: null, skip: null }])
  const refused = await type(await codeOf(0, ana.seat), { seat: String(ana.seat) })
  expect(refused).toMatchObject({ reason: 'answered-on-phone' })
  expect(await cafe.db.setAnswer.findMany()).toMatchObject([{ answer: '[1]', source: 'phone' }])
})

test('a sheet of sets takes no answer about one cup, and each set once', async () => {
  const ana = await choicePhone(cafe.world, panelId)
  await ana.answer([1])
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, ana.seat)
  const send = async (more: object, seat = ana.seat) => {
    const ticks = { unaffected: 'yes', consent: 'yes', unseen: 'yes' }
    const was = (await sheet(seat))?.was ?? ''
    return enterPaperScores(
      cafe.world,
      cafe.owner,
      panelId,
      PaperForm.parse({ seat: String(seat), name: 'Ana', was, ...ticks, ...more }),
    )
  }
  const cups = [{ code: await codeOf(0, ana.seat), skip: 'rather-not' }]
  expect(await send({ cups })).toMatchObject({ ok: false, reason: 'no-such-answer' })
  expect(await cafe.db.serving.count({ where: { panelId, skippedAt: { not: null } } })).toBe(0)
  const twice = [
    { number: '1', answer: await codeOf(0) },
    { number: '1', answer: await codeOf(1) },
  ]
  expect(await send({ sets: twice }, 6)).toMatchObject({ ok: false, reason: 'no-such-answer' })
})

test('a code of another tray, and an answer with a reason, are refused', async () => {
  expect(await type('000')).toMatchObject({ reason: 'no-such-answer' })
  await expect(type(await codeOf(0), { skip: 'rather-not' })).rejects.toThrow('Either an answer or a reason')
})

test('a ballot asks which one, with the codes in the order of tasting', async () => {
  const ballots = await readBallots(cafe.world, cafe.owner, panelId, false)
  const servings = await cafe.db.serving.findMany({
    where: { panelId, seat: { number: 6 } },
    orderBy: { position: 'asc' },
  })
  expect(ballots?.seats).toMatchObject([
    { number: 6, codes: servings.map(({ code }) => code), asks: [{ kind: 'choose', none: true }] },
  ])
})

test('whoever answered reads what is kept of them, cup by cup', async () => {
  const ana = await choicePhone(cafe.world, panelId)
  await ana.answer([2])
  const kept = await readKeptOfMe(cafe.world, { by: 'phone', browser: ana.browser })
  expect(kept?.cups?.map(({ answers }) => answers.map(({ question, said }) => [question, said]))).toEqual([
    [['Which of the two is preferred', 'the other']],
    [['Which of the two is preferred', 'this one']],
  ])
})
