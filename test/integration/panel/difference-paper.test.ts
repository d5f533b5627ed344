/** Sets that may be told apart on paper: the ballot, the sheet typed in, and what is kept of whoever answered. */
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
import { differencePhone, openDifferencePanel } from '../../support/difference-panel'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const sheet = (panelId: string) => readPaperSeat(cafe.world, cafe.owner, panelId, 6)
const servingsOf = (panelId: string, set = 1) =>
  cafe.db.serving.findMany({
    where: { panelId, seat: { number: 6 }, set: { number: set } },
    orderBy: { position: 'asc' },
    include: { cup: true },
  })

/** As the form sends it: of each set the codes, or nothing. */
async function type(panelId: string, ...answers: readonly string[]) {
  cafe.pass(1000)
  const ticks = { unaffected: 'yes', consent: 'yes', unseen: 'yes', was: (await sheet(panelId))?.was ?? '' }
  const sets = answers.map((answer, at) => ({ number: String(at + 1), ...(answer && { answer }) }))
  const typed = PaperForm.parse({ seat: '6', name: 'Pia', ...ticks, sets })
  return enterPaperScores(cafe.world, cafe.owner, panelId, typed)
}

async function onPaper(design: Parameters<typeof openDifferencePanel>[1]) {
  const panelId = await openDifferencePanel(cafe, design)
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 6)
  return panelId
}

test('a ballot has every set in the order of tasting, and nothing else of a serving', async () => {
  const panelId = await onPaper({ each: 2 })
  const ballots = await readBallots(cafe.world, cafe.owner, panelId, false)
  const sets = await Promise.all([1, 2].map(async (set) => (await servingsOf(panelId, set)).map(({ code }) => code)))
  expect(ballots?.seats).toEqual([
    {
      number: 6,
      asks: [{ kind: 'odd', protocol: 'triangle', property: null }],
      token: expect.any(String) as string,
      codes: sets.flat(),
      sets,
    },
  ])
})

test('a sheet offers each code of a triangle, the two that are no reference, and three ways to pair four', async () => {
  const offered = async (design: Parameters<typeof openDifferencePanel>[1]) => {
    const panelId = await onPaper(design)
    const [set] = (await sheet(panelId))?.sets ?? []
    return { panelId, codes: set?.codes ?? [], offers: set?.offers ?? [] }
  }
  const triangle = await offered({})
  expect(triangle.codes).toEqual(triangle.codes.toSorted())
  expect(triangle.offers).toEqual(triangle.codes.map((code) => [code]))
  const duo = await offered({ protocol: 'duo-trio' })
  const [reference] = await servingsOf(duo.panelId)
  expect(duo.offers.flat()).toEqual(duo.codes.filter((code) => code !== reference?.code))
  const tetrad = await offered({ protocol: 'tetrad' })
  expect(tetrad.offers).toHaveLength(3)
  for (const pair of tetrad.offers) expect(pair).toContain(tetrad.codes[0])
})

test('what is typed counts as a phone’s answers do; typed again it corrects, by code', async () => {
  const panelId = await onPaper({ each: 2 })
  const [first, second] = [await servingsOf(panelId, 1), await servingsOf(panelId, 2)]
  const odd = (set: typeof first) =>
    set.find((one) => set.filter(({ cupId }) => cupId === one.cupId).length === 1)?.code ?? ''
  const wrong = first.find(({ code }) => code !== odd(first))?.code ?? ''
  expect(await type(panelId, wrong, odd(second))).toEqual({ ok: true, value: { cups: 2 } })
  expect(await type(panelId, odd(first), odd(second))).toEqual({ ok: true, value: { cups: 2 } })
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.difference).toMatchObject({ tasters: 1, answers: 2, right: 2 })
  expect(result?.corrections.map(({ letter, stood, stands }) => [letter, stood, stands])).toEqual([
    ['A and B', wrong, odd(first)],
  ])
})

test('a reference, a code of another set, and one of a tetrad alone are no answers', async () => {
  const duo = await onPaper({ protocol: 'duo-trio', each: 2 })
  const [[reference], [elsewhere]] = [await servingsOf(duo, 1), await servingsOf(duo, 2)]
  for (const none of [reference, elsewhere])
    expect(await type(duo, none?.code ?? '')).toMatchObject({ reason: 'no-such-answer' })
  const tetrad = await onPaper({ protocol: 'tetrad' })
  const [one, other] = await servingsOf(tetrad)
  expect(await type(tetrad, one?.code ?? '')).toMatchObject({ reason: 'no-such-answer' })
  expect(await type(tetrad, `${one?.code} ${other?.code}`)).toMatchObject({ ok: true })
})

test('whoever answered reads what is kept of them, cup by cup, and not whether it was right', async () => {
  const panelId = await openDifferencePanel(cafe, {})
  const ana = await differencePhone(cafe.world, panelId)
  await ana.answer([2])
  const kept = await readKeptOfMe(cafe.world, { by: 'phone', browser: ana.browser })
  expect(kept?.cups?.map(({ answers }) => answers.map(({ said }) => said))).toEqual([
    ['not this one'],
    ['this one'],
    ['not this one'],
  ])
  expect(JSON.stringify(kept)).not.toMatch(/right|wrong|correct/)
})
