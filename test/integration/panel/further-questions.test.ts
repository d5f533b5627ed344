/**
 * Sixteen invented tasters answer liking, “just right”, a strength and words about three cups, each by the acts of a phone.
 * Made   test/reference/make/further-questions.R: t.test, p.adjust("holm"), Cochran's Q by its formula; R 4.2.2
 */
import { readFileSync } from 'node:fs'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Ballot } from '@/app/(house)/panels/[panelId]/ballots/ballot'
import { runStats } from '@/lib/commands/stats/run-stats'
import { checkBooks } from '@/lib/db/books/check-books'
import { overallLiking } from '@/lib/panel/plan'
import type { Question } from '@/lib/panel/question'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readBallots } from '@/lib/tasks/pour/read-ballots'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { exportJustRight, exportWords } from '@/lib/tasks/result/export-further'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult } from '@/lib/tasks/result/read-result'
import { readShared } from '@/lib/tasks/result/read-shared'
import { shareResult } from '@/lib/tasks/result/share-result'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { ownAsks } from '@/lib/tasks/taste/own-asks'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { cafeForTest, type TestCafe } from '../../support/cafe'

type Letter = 'A' | 'B' | 'C'
interface Side {
  readonly n: number
  readonly share: number
  readonly drop: number
  readonly low: number
  readonly high: number
  readonly p: number
  readonly pHolm: number
}
const fromR = JSON.parse(readFileSync('test/reference/data/further-questions.json', 'utf8')) as {
  readonly jar: Record<Letter, readonly number[]>
  readonly liking: Record<Letter, readonly number[]>
  readonly strength: Record<Letter, readonly number[]>
  readonly ticks: Record<Letter, readonly number[]>
  readonly words: readonly string[]
  readonly sides: Readonly<Record<string, Side>>
  readonly strengthMeans: Record<Letter, number>
  readonly Q: readonly number[]
  readonly p: readonly number[]
}
const letters: readonly Letter[] = ['A', 'B', 'C']
const SEATS = 16

const asked: readonly Question[] = [
  { name: 'Sweetness', kind: 'just-right-5', low: 'not sweet enough', high: 'too sweet', words: [] },
  { name: 'Cardamom', kind: 'intensity-100', low: null, high: null, words: [] },
  { name: 'Taste', kind: 'words', low: null, high: null, words: fromR.words },
]

let cafe: TestCafe
let panelId: string

beforeEach(async () => {
  cafe = await cafeForTest()
  const { world, owner, recipeId } = cafe
  const planned = await planPanel(world, owner, recipeId, cafe.plan({ seatCount: SEATS, aspects: [...asked] }))
  panelId = planned.ok ? planned.value : ''
  expect(await openPanel(world, owner, panelId)).toEqual({ ok: true, value: null })
})

afterEach(() => cafe.close())

const joinToken = async () =>
  (await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId }, select: { joinToken: true } })).joinToken

const never = () => {
  throw new Error('no ballot')
}

/** The trial of each code of a seat, as only the test may read it. */
async function cupsOf(seat: number): Promise<ReadonlyMap<string, Letter>> {
  const rows = await cafe.db.serving.findMany({
    where: { panelId, seat: { number: seat } },
    select: { code: true, cup: { select: { trialId: true } } },
  })
  return new Map(rows.map(({ code, cup }) => [code, letters[cafe.trialIds.indexOf(cup.trialId)] ?? 'A']))
}

async function sitDown(name: string) {
  const browser = cafe.world.token()
  await takeSeat(cafe.world, { kind: 'join', token: await joinToken() }, { browser, userId: null, name })
  const state = await readSeatState(cafe.world, browser)
  if (!state.ok) throw new Error(state.reason)
  return { browser, ...state.value }
}

async function everybodyTastes(): Promise<void> {
  for (let taster = 0; taster < SEATS; taster++) {
    const { browser, sitting, seat, cups } = await sitDown(`T${taster}`)
    const known = await cupsOf(seat)
    for (const { code } of cups) {
      const letter = known.get(code) ?? 'A'
      const values = [fromR.liking, fromR.jar, fromR.strength, fromR.ticks].map((of) => of[letter][seat - 1] ?? 0)
      for (const [attribute, value] of values.entries()) {
        const message = { sitting, code, attribute, value, revision: 1, key: cafe.world.id() }
        expect(await storeScore(cafe.world, browser, message)).toEqual({ ok: true, value: { value, revision: 1 } })
      }
      expect((await lockServing(cafe.world, browser, { sitting, code })).ok).toBe(true)
    }
  }
}

async function closed() {
  await everybodyTastes()
  expect((await closePanel(cafe.world, cafe.owner, panelId)).ok).toBe(true)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  if (!result) throw new Error('no result')
  return result
}

async function stats(argv: readonly string[], content: string): Promise<Record<string, unknown>[]> {
  let out = ''
  const code = await runStats(argv, {
    read: () => new TextEncoder().encode(content),
    out: (text) => (out += text),
    err: (line) => {
      throw new Error(line)
    },
  })
  expect(code).toBe(0)
  // one object, or with --by one a line
  const objects = argv.includes('--by') ? out.trimEnd().split('\n') : [out]
  return objects.map((line) => JSON.parse(line) as Record<string, unknown>)
}

test('drops, their intervals and Holm over all of them are R’s; what is few or cannot be told suggests nothing', async () => {
  const { drops } = await closed()
  expect(drops.map(({ question }) => question.name)).toEqual(['Sweetness'])
  const read = drops[0]?.cups.flatMap(({ letter, tooLittle, tooMuch }) => [
    [`${letter}-`, tooLittle] as const,
    [`${letter}+`, tooMuch] as const,
  ])
  for (const [name, side] of read ?? []) {
    const r = fromR.sides[name]
    if (!r) {
      expect(side).toBeNull()
      continue
    }
    expect(side?.n).toBe(r.n)
    expect(side?.share).toBeCloseTo(r.share, 12)
    expect(side?.meanDrop).toBeCloseTo(r.drop, 10)
    expect(side?.interval?.[0]).toBeCloseTo(r.low, 8)
    expect(side?.interval?.[1]).toBeCloseTo(r.high, 8)
    expect(side?.p).toBeCloseTo(r.p, 10)
    expect(side?.pHolm).toBeCloseTo(r.pHolm, 10)
    expect(side?.told).toBe(r.share < 0.2 ? 'few' : r.pHolm <= 0.05 ? 'costs-liking' : 'cannot-tell')
  }
  const told = read?.flatMap(([name, side]) => (side?.told === 'costs-liking' ? [name] : []))
  expect(told).toEqual(['B-', 'B+', 'C+'])
})

test('strength has its means on its own scale, and words are told apart as R’s Cochran says', async () => {
  const { aspects, ticked } = await closed()
  expect(aspects.map(({ name, kind }) => [name, kind])).toEqual([['Cardamom', 'intensity-100']])
  for (const { cup, mean } of aspects[0]?.answer?.cups ?? [])
    expect(mean).toBeCloseTo(fromR.strengthMeans[cup as Letter], 10)
  const terms = ticked[0]?.answer?.terms ?? []
  expect(terms.map(({ term }) => term).toSorted()).toEqual([...fromR.words].toSorted())
  for (const { term, Q, p } of terms) {
    const at = fromR.words.indexOf(term)
    expect(Q).toBeCloseTo(fromR.Q[at] ?? NaN, 10)
    expect(p).toBeCloseTo(fromR.p[at] ?? NaN, 10)
  }
})

test('the command gives the page’s numbers from the files that are taken away', async () => {
  const { drops, ticked } = await closed()
  const { world, owner, stranger } = cafe
  const again = await readReproduced(world, owner, panelId)
  const [jar, words] = again?.further ?? []
  expect(jar?.command).toBe('jar sipwright-just-right.csv --attribute Sweetness --liking liking --by cup')
  expect(words?.command).toBe('check sipwright-words.csv --where question=Taste')
  const lines = await stats(jar?.command.split(' ') ?? [], (await exportJustRight(world, owner, panelId)) ?? '')
  for (const { letter, shares, justRight, tooMuch } of drops[0]?.cups ?? []) {
    const line = lines.find(({ by }) => by === letter)
    expect(line).toMatchObject({ shares, justRight })
    const { pHolm: _pHolm, told: _told, ...side } = tooMuch ?? {}
    if (tooMuch) expect(line?.['tooMuch']).toEqual(side)
  }
  const [checked] = await stats(words?.command.split(' ') ?? [], (await exportWords(world, owner, panelId)) ?? '')
  expect(checked?.['terms']).toEqual(ticked[0]?.answer?.terms)
  expect(await exportWords(world, stranger, panelId)).toBeNull()
  expect(await exportJustRight(world, stranger, panelId)).toBeNull()
})

test('a link shows what to change, and no seat; the copy asks the same questions', async () => {
  await closed()
  const { world, owner } = cafe
  const shared = await shareResult(world, owner, panelId)
  const found = shared.ok ? await readShared(world, shared.value) : null
  expect(found?.result.drops).toHaveLength(1)
  expect(found?.result.ticked).toHaveLength(1)
  const copy = await copyPanel(world, owner, panelId)
  const again = copy.ok ? await readPanel(world, owner, copy.value) : null
  expect(again?.plan.aspects).toEqual(asked)
})

test('before closing nothing is taken away, and no answer is taken that is not on its scale', async () => {
  const { world, owner } = cafe
  const { browser, sitting, cups, asks } = await sitDown('Wren')
  const code = cups[0]?.code ?? ''
  const send = (attribute: number, value: number) =>
    storeScore(world, browser, { sitting, code, attribute, value, revision: 1, key: world.id() })
  for (const [attribute, value] of [
    [0, 0],
    [0, 10],
    [1, 0],
    [1, 6],
    [2, 101],
    [3, 8],
  ] as const)
    expect(await send(attribute, value)).toMatchObject({ ok: false, reason: 'off-the-scale' })
  expect((await send(2, 0)).ok).toBe(true)
  expect((await send(3, 0)).ok).toBe(true)
  expect(await exportJustRight(world, owner, panelId)).toBeNull()
  expect(await exportWords(world, owner, panelId)).toBeNull()
  expect(asks.map(({ kind }) => kind)).toEqual(['liking', 'steps', 'line', 'words'])
})

test('the order of words is each taster’s own, and stays', async () => {
  const orders = new Set<string>()
  for (let taster = 0; taster < SEATS; taster++) {
    const { browser, asks } = await sitDown(`T${taster}`)
    const again = await readSeatState(cafe.world, browser)
    expect(again.ok && again.value.asks).toEqual(asks)
    orders.add(JSON.stringify(asks[3]))
  }
  // of the six orders of three words sixteen seats have more than one, but for a chance of 6 × (1/6)^16
  expect(orders.size).toBeGreaterThan(1)
})

test('on paper: what is on no scale is refused beside its field; words and a line are typed in and read back', async () => {
  const { world, owner } = cafe
  await putSeatOnPaper(world, owner, panelId, 2)
  const sheet = await readPaperSeat(world, owner, panelId, 2)
  const cups = (values: readonly (number | null)[]) =>
    (sheet?.cups ?? []).map(({ code }) => ({ code, answers: [...values], skip: null, comment: null }))
  const typed = (values: readonly (number | null)[]) => ({
    seat: 2,
    name: 'Wren',
    unaffected: 'yes' as const,
    consent: 'yes' as const,
    unseen: 'yes' as const,
    was: sheet?.was ?? '',
    cups: cups(values),
  })
  const refused = (values: readonly number[], field: string) => ({ values, field })
  for (const { values, field } of [
    refused([0, 3, 50, 1], 'cups[0].answers[0]'),
    refused([7, 6, 50, 1], 'cups[0].answers[1]'),
    refused([7, 3, 101, 1], 'cups[0].answers[2]'),
    refused([7, 3, 50, 8], 'cups[0].answers[3]'),
    refused([7, 3, 50, 1, 1], 'cups[0].answers[4]'),
  ])
    expect(await enterPaperScores(world, owner, panelId, typed(values))).toMatchObject({
      ok: false,
      reason: 'off-the-scale',
      detail: { field },
    })
  expect(await enterPaperScores(world, owner, panelId, typed([7, 2, 0, 5]))).toMatchObject({ ok: true })
  const read = await readPaperSeat(world, owner, panelId, 2)
  expect(read?.cups.map(({ answers }) => answers)).toEqual([1, 2, 3].map(() => [7, 2, 0, 5]))
  expect(read?.attributes).toEqual([overallLiking, 'Sweetness', 'Cardamom', 'Taste'])
  // the ballot asks what the phone of that seat would ask, in the same order of words
  const ballots = await readBallots(world, owner, panelId, false)
  const row = await cafe.db.seat.findFirstOrThrow({ where: { panelId, number: 2 } })
  const attributes = await cafe.db.panelAttribute.findMany({ where: { panelId }, orderBy: { position: 'asc' } })
  expect(ballots?.seats.map(({ asks }) => asks)).toEqual([ownAsks(row.id, attributes)])
  const printed = renderToStaticMarkup(
    createElement(Ballot, { head: ballots ?? never(), seat: ballots?.seats[0] ?? never(), address: null }),
  )
  for (const words of ['not sweet enough, by far', 'too sweet', 'none at all', 'floral'])
    expect(printed).toContain(words)
})

test('the books hold, and hear an answer off its scale and a question of no kind', async () => {
  await closed()
  // what this café's own fixture leaves unnumbered is none of a panel's
  const ofPanels = ['score-off-the-scale', 'question-unknown']
  const heard = async () =>
    (await checkBooks(cafe.db)).map(({ code }) => code).filter((code) => ofPanels.includes(code))
  expect(await heard()).toEqual([])
  const attribute = (position: number) =>
    cafe.db.panelAttribute.findFirstOrThrow({ where: { panelId, position }, select: { id: true } })
  for (const [position, value] of [
    [1, 6],
    [2, 101],
    [3, 8],
    [0, 0],
  ] as const) {
    const { id: attributeId } = await attribute(position)
    const score = await cafe.db.score.findFirstOrThrow({ where: { attributeId } })
    await cafe.db.score.update({ where: { id: score.id }, data: { value } })
    expect(await heard()).toEqual(['score-off-the-scale'])
    await cafe.db.score.update({ where: { id: score.id }, data: { value: score.value } })
  }
  const { id } = await attribute(3)
  await cafe.db.panelAttribute.update({ where: { id }, data: { kind: 'stars' } })
  expect(await heard()).toContain('question-unknown')
})
