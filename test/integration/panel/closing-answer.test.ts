/**
 * What a panel was told at closing is kept. The sentence follows from R's p values and intervals (panel-of-eight.R): B over A by 1.34
 * to 2.41 with p below 0.001; A and C 0.095, B and C 0.056, both not below 0.05.
 */
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PaperForm } from '@/lib/forms/paper-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { readClosingAnswer } from '@/lib/tasks/result/closing-answer'
import { decide } from '@/lib/tasks/result/decide'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readResult } from '@/lib/tasks/result/read-result'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { fromR, scoreAsInR } from '../../support/panel-of-eight'

const SENTENCE =
  'Cup B (Velvetine 2) is liked better than cup A (Velvetine 1), by 1.2 to 2.6 points. This panel cannot tell cup C (Velvetine 3) from cup A (Velvetine 1) nor cup B (Velvetine 2) from cup C (Velvetine 3).'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan({ seatCount: 9, notWorseMargin: 5 }))
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
})
afterEach(() => cafe.close())

const panelRow = () => cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })

async function kept() {
  const read = readClosingAnswer((await panelRow()).closingAnswer ?? '')
  if (!read.ok || read.value.outcome !== 'answered' || read.value.version !== 2) throw new Error('nothing was kept')
  return read.value
}

/** Somebody at seat 9, whose scores come before closing or after it. */
async function guest() {
  const { world } = cafe
  const { joinToken } = await panelRow()
  const browser = world.token()
  const seat = await takeSeat(world, { kind: 'join', token: joinToken }, { browser, userId: null, name: 'Late' })
  if (!seat.ok) throw new Error(seat.reason)
  const state = await readSeatState(world, browser)
  if (!state.ok) throw new Error(state.reason)
  const score = (place: number, value: number) =>
    storeScore(world, browser, {
      sitting: state.value.sitting,
      code: state.value.cups[place]?.code ?? '',
      attribute: 0,
      value,
      revision: 1,
      key: world.id(),
    })
  return { score }
}

test('closing keeps the sentence, the numbers behind it and what made them', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const row = await panelRow()
  expect(row).toMatchObject({ closingAnswerHow: 'closing', closingAnswerAt: row.closedAt })
  const answer = await kept()
  expect(answer.verdict.sentence).toBe(SENTENCE)
  expect(answer.verdict.numbers).toHaveLength(3)
  expect(answer.verdict.margin.length).toBeGreaterThan(0)
  expect(answer.verdict.next).toContain('Decide')
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string }
  expect(answer).toMatchObject({ version: 2, program: version, method: expect.stringMatching(/-20\d\d-\d\d$/) })
  fromR.pairs.forEach((pair, place) => {
    const ours = answer.primary?.claims.find((one) => one.a === pair.a && one.b === pair.b)
    expect(ours?.difference).toBeCloseTo(pair.difference, 6)
    expect(ours?.low).toBeCloseTo(fromR.joint95All[place]?.[0] ?? NaN, 6)
    expect(ours?.high).toBeCloseTo(fromR.joint95All[place]?.[1] ?? NaN, 6)
  })
  expect(answer.needed?.tasters).toBe(fromR.tastersForOnePoint)
  expect(answer.aspects.map((aspect) => aspect.name)).toEqual(['Sweetness'])
  expect(answer.cups.map((cup) => cup.trialId)).toEqual(cafe.trialIds.slice(0, 3))
})

test('the result page says what was kept, and nothing beside it while today says the same', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.verdict).toEqual((await kept()).verdict)
  expect(result?.found).toMatchObject({ how: 'closing', program: expect.any(String) })
  expect(result?.today).toBeNull()
})

test('a late score and a sheet typed after closing change nothing of what was kept', async () => {
  await scoreAsInR(cafe, panelId)
  const late = await guest()
  await closePanel(cafe.world, cafe.owner, panelId)
  const before = (await panelRow()).closingAnswer
  expect(before).toContain('"counts":{"tasters":8')
  cafe.pass(60_000)
  expect(await late.score(0, 9)).toMatchObject({ ok: false, reason: 'kept-late' })
  const [cup] = await cafe.db.serving.findMany({ where: { seat: { panelId, number: 1 } } })
  const typed = PaperForm.parse({
    seat: '1',
    name: 'Wilhelmina',
    unaffected: 'yes',
    consent: 'yes',
    unseen: 'yes',
    cups: [{ code: cup?.code, answers: ['1'] }],
  })
  expect((await enterPaperScores(cafe.world, cafe.owner, panelId, typed)).ok).toBe(false)
  await closePanel(cafe.world, cafe.secondOwner, panelId)
  await decide(cafe.world, cafe.owner, panelId, { kind: 'test-again', trialId: undefined, reason: 'More tasters.' })
  expect((await panelRow()).closingAnswer).toBe(before)
})

test('where the same panel says something else today, both stand there with what changed', async () => {
  await scoreAsInR(cafe, panelId)
  await closePanel(cafe.world, cafe.owner, panelId)
  // What no act of ours does: a row taken away behind our back.
  const score = await cafe.db.score.findFirstOrThrow({ where: { serving: { seat: { number: 1 } } } })
  await cafe.db.score.delete({ where: { id: score.id } })
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.verdict.sentence).toBe(SENTENCE)
  expect(result?.today?.changed).toContain('24 scores counted then, 23 count now.')
  expect(result?.today?.verdict.numbers).not.toEqual(result?.verdict.numbers)
})

test.each(['', 'a shopping list', '{}', '{"version":2,"outcome":"answered"}', 'null', '[1e999]'])(
  'a kept text that cannot be read (%j) is said to be so, and today stands in its place',
  async (text) => {
    await scoreAsInR(cafe, panelId)
    await closePanel(cafe.world, cafe.owner, panelId)
    await cafe.db.panel.update({ where: { id: panelId }, data: { closingAnswer: text } })
    const result = await readResult(cafe.world, cafe.owner, panelId)
    expect(result?.found.how).toBe(text === '' ? 'not-kept' : 'unreadable')
    expect(result?.verdict.sentence).toBe(SENTENCE)
  },
)

test('a panel that nobody came to keeps that, too', async () => {
  await closePanel(cafe.world, cafe.owner, panelId)
  const answer = await kept()
  expect(answer.headline?.code).toBe('nothing-scored')
  expect(answer.verdict.sentence).toBe('Nobody scored any cup, so there is nothing to compare.')
  expect(answer.liking).toBeNull()
})
