/** An order on paper beside phones, and what is kept of whoever gave one. */
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
import { openRankPanel, rankPhone } from '../../support/rank-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  panelId = await openRankPanel(cafe)
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 6)
})
afterEach(() => cafe.close())

const sheet = () => readPaperSeat(cafe.world, cafe.owner, panelId, 6)
async function codesOf(order: string): Promise<string[]> {
  const codes: string[] = []
  for (const letter of order) {
    const own = { seat: { panelId, number: 6 }, cup: { trialId: cafe.trialIds['ABC'.indexOf(letter)] ?? '' } }
    codes.push((await cafe.db.serving.findFirstOrThrow({ where: own })).code)
  }
  return codes
}

/** As the form sends it: cups by code, each with the place beside it. */
async function sent(placed: Readonly<Record<string, string>>, { skip = '', was = '' } = {}) {
  const ticks = { unaffected: 'yes', consent: 'yes', unseen: 'yes' }
  const order = []
  for (const letter of 'ABC') {
    const place = placed[letter]
    order.push({ code: (await codesOf(letter))[0] ?? '', ...(place && { place }) })
  }
  const set = { number: '1', order: order.toSorted((a, b) => (a.code < b.code ? -1 : 1)), ...(skip && { skip }) }
  return { seat: '6', name: 'Pia', ...ticks, was, sets: [set] }
}
async function type(placed: Readonly<Record<string, string>>, more = {}) {
  cafe.pass(1000)
  return enterPaperScores(cafe.world, cafe.owner, panelId, PaperForm.parse(await sent(placed, more)))
}
const problems = async (placed: Readonly<Record<string, string>>, more = {}) =>
  PaperForm.safeParse(await sent(placed, more)).error?.issues.map(({ path, message }) => `${path.join('.')} ${message}`)

test('a sheet names all codes, never in the order of tasting; a ballot has them in that order', async () => {
  const codes = (await sheet())?.sets[0]?.codes ?? []
  expect(codes).toHaveLength(3)
  expect(codes).toEqual(codes.toSorted())
  const ballots = await readBallots(cafe.world, cafe.owner, panelId, false)
  const servings = await cafe.db.serving.findMany({
    where: { panelId, seat: { number: 6 } },
    orderBy: { position: 'asc' },
  })
  expect(ballots?.seats).toMatchObject([
    { number: 6, codes: servings.map(({ code }) => code), asks: [{ kind: 'rank' }] },
  ])
})

test('places beside codes become the order that counts', async () => {
  expect(await type({ A: '3', B: '1', C: '2' })).toEqual({ ok: true, value: { cups: 1 } })
  expect((await sheet())?.sets[0]?.answer).toEqual(await codesOf('BCA'))
  await closePanel(cafe.world, cafe.owner, panelId)
  const { rank } = (await readResult(cafe.world, cafe.owner, panelId)) ?? {}
  expect(rank?.tasters).toBe(1)
  expect(rank?.cups.map(({ cup }) => cup)).toEqual(['B', 'C', 'A'])
})

test('a place twice, a cup without one, and an order with a reason are refused beside the field; none at all is blank', async () => {
  const [twice] = (await problems({ A: '1', B: '2', C: '2' })) ?? []
  expect(twice).toMatch(/^sets\.0\.order\.[12]\.place Two cups in place 2\./)
  const [gap] = (await problems({ A: '1', C: '2' })) ?? []
  expect(gap).toMatch(/^sets\.0\.order\.\d\.place This cup has no place\./)
  const [far] = (await problems({ A: '1', B: '2', C: '4' })) ?? []
  expect(far).toMatch(/^sets\.0\.order\.\d\.place There are 3 places\./)
  expect(await problems({ A: '1', B: '2', C: '3' }, { skip: 'rather-not' })).toEqual([
    'sets.0.skip Either an answer or a reason, not both.',
  ])
  expect(await type({})).toMatchObject({ ok: true })
  expect(await cafe.db.setAnswer.count()).toBe(0)
})

test('typed again it corrects, and what stood is kept and told after closing', async () => {
  await type({ A: '1', B: '2', C: '3' })
  await type({ A: '2', B: '1', C: '3' }, { was: (await sheet())?.was ?? '' })
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.corrections.map(({ letter, what, stood, stands }) => [letter, what, stood, stands])).toEqual([
    ['A, B and C', 'Order of liking', 'A, B, C', 'B, A, C'],
  ])
})

test('whoever gave an order reads what is kept of them, cup by cup', async () => {
  const ana = await rankPhone(cafe.world, panelId)
  await ana.answer([3, 1, 2])
  const kept = await readKeptOfMe(cafe.world, { by: 'phone', browser: ana.browser })
  expect(kept?.cups?.map(({ answers }) => answers.map(({ question, said }) => [question, said]))).toEqual([
    [['Order of liking', 'place 2 of 3']],
    [['Order of liking', 'place 3 of 3']],
    [['Order of liking', 'place 1 of 3']],
  ])
})
