/**
 * What a panel says that puts three cups in order, from phones to the sentence, the file and the command.
 * Expected numbers from R 4.2.2: test/reference/data/order-panels.json (make/order-panels.R), “alone”, “none” and “pairless”:
 * friedman.test, its exact p over every order of every taster, binom.test of each pair, p.adjust (Holm). Worths: those of the
 * reference tests of Plackett and Luce; here only that page and command agree.
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { runStats } from '@/lib/commands/stats/run-stats'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { setSeatAside } from '@/lib/tasks/pour/set-seat-aside'
import { findBlindLiking } from '@/lib/tasks/result/blind-liking'
import { decide } from '@/lib/tasks/result/decide'
import { readEvidence } from '@/lib/tasks/result/decision-evidence'
import { exportColumns, exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { readDose } from '@/lib/tasks/result/read-dose'
import { readMemory } from '@/lib/tasks/result/read-memory'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult } from '@/lib/tasks/result/read-result'
import { readShared } from '@/lib/tasks/result/read-shared'
import { shareResult } from '@/lib/tasks/result/share-result'
import made from '../../reference/data/order-panels.json'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { openRankPanel, rankPhone } from '../../support/rank-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  panelId = await openRankPanel(cafe, { seatCount: 16 })
})
afterEach(() => cafe.close())

const trialsOf = (order: string) => order.split('').map((letter) => cafe.trialIds['ABC'.indexOf(letter)] ?? '')

/** A phone each, with a name of its own, that gives these orders. */
async function answer(orders: readonly string[], times: readonly number[]) {
  const all = orders.flatMap((order, at) => Array<string>(times[at] ?? 0).fill(order))
  for (const [at, order] of all.entries())
    await (await rankPhone(cafe.world, panelId, `Taster ${at + 1}`)).order(trialsOf(order))
}
const hold = ({ orders, times }: { orders: readonly string[]; times: readonly number[] }) => answer(orders, times)

async function result() {
  const read = await readResult(cafe.world, cafe.owner, panelId)
  if (!read) throw new Error('no result')
  return read
}

async function close() {
  cafe.pass(60_000)
  await closePanel(cafe.world, cafe.owner, panelId)
  return result()
}

/** The words beside the file, run on the file. */
async function again() {
  const csv = (await exportScores(cafe.world, cafe.owner, panelId)) ?? ''
  const words = (await readReproduced(cafe.world, cafe.owner, panelId))?.command.split(' ') ?? []
  let [ran, err] = ['', '']
  const io = {
    read: () => Buffer.from(csv),
    out: (text: string) => (ran += text),
    err: (line: string) => (err += line),
  }
  expect([await runStats(words, io), err]).toEqual([0, ''])
  return { csv, ran }
}

test('a cup told above every other, and most often first, is said so; pairs stand by the exact sign test after Holm', async () => {
  await hold(made.held.alone)
  const { verdict, rank, found, kind, choice, liking, claims } = await close()
  expect({ kind, choice, liking, claims }).toEqual({ kind: 'rank', choice: null, liking: null, claims: [] })
  expect(rank).toMatchObject({
    tasters: 12,
    without: 0,
    best: 'B',
    later: [],
    fewest: 7,
    first: { by: 'exact', differ: true },
  })
  expect(rank?.first?.p).toBeCloseTo(made.held.alone.pExact, 12)
  expect(rank?.first?.chiSquared).toBeCloseTo(made.held.alone.chiSquared, 10)
  expect(rank?.cups.map(({ cup, places }) => [cup, ...places])).toEqual([
    ['B', 11, 1, 0],
    ['A', 1, 6, 5],
    ['C', 0, 5, 7],
  ])
  // R's pairs are AB, AC, BC
  expect(rank?.pairs.map(({ above, below, liked, told }) => `${above}${below} ${liked} ${told}`)).toEqual([
    'BA 11 true',
    'AC 7 false',
    'BC 12 true',
  ])
  for (const [at, pair] of (rank?.pairs ?? []).entries()) {
    expect(pair.p).toBeCloseTo(made.held.alone.sign[at] ?? NaN, 12)
    expect(pair.pHolm).toBeCloseTo(made.held.alone.holm[at] ?? NaN, 12)
  }
  expect(verdict.told).toBe('better')
  expect(verdict.sentence).toBe(
    'Most often put first is cup B (Velvetine 2), by 11 of 12; more put it above every other cup than chance would.',
  )
  expect(verdict.numbers).toEqual([
    'Friedman’s exact test of 12 whole orders: p below 0.001.',
    'Exact sign test of each pair, after Holm over all 3: cup B (Velvetine 2) above cup C (Velvetine 3), 12 of 12, p = 0.001; cup B (Velvetine 2) above cup A (Velvetine 1), 11 of 12, p = 0.013; cup A (Velvetine 1) above cup C (Velvetine 3), 7 of 12, p = 0.774.',
  ])
  expect(found.how).toBe('closing')
})

test('where only some pairs are told, each is said with its count, and then what is not told', async () => {
  await answer(['ABC', 'BAC'], [6, 6])
  const { verdict, rank } = await close()
  expect(rank).toMatchObject({ best: null, first: { differ: true } })
  expect(verdict.sentence).toBe(
    'No cup stands out from all others. Cup A (Velvetine 1) is put above cup C (Velvetine 3) (12 of 12); cup B (Velvetine 2) is put above cup C (Velvetine 3) (12 of 12). This panel cannot tell cup A from cup B.',
  )
  expect(verdict.told).toBe('better')
})

test('where the first test does not say that the cups differ, no pair is read', async () => {
  await hold(made.held.none)
  const { verdict, rank } = await close()
  expect(rank?.first?.p).toBeCloseTo(made.held.none.pExact, 12)
  expect(rank?.pairs.map(({ p, pHolm, told }) => [p, pHolm, told])).toEqual([1, 2, 3].map(() => [null, null, false]))
  expect(verdict.told).toBe('cannot-tell')
  // R: 40 whole orders for 75 of 100 at 0.05 / 3, power 0.8 (qbinom, pbinom)
  expect(verdict.sentence).toBe(
    'No cup stands out: this panel cannot tell cup A (Velvetine 1), cup B (Velvetine 2) and cup C (Velvetine 3) apart. To tell a cup that 75 of 100 put above another, as planned, it takes 40 whole orders.',
  )
  expect(verdict.numbers).toEqual([
    'Friedman’s exact test of 9 whole orders: p = 0.569. No pair is read: this test does not say that the cups differ.',
  ])
})

test('where the places differ and no pair is told, that is what is said', async () => {
  await hold(made.held.pairless)
  const { verdict, rank } = await close()
  expect(rank?.first?.p).toBeCloseTo(made.held.pairless.pExact, 12)
  expect(verdict.told).toBe('cannot-tell')
  expect(verdict.sentence).toContain(
    'No cup stands out: the places differ by more than chance, but no two of the cups can be told apart.',
  )
})

test.each([
  [0, 'Nobody put all the cups in order.'],
  [1, 'One whole order is too few to tell any two cups apart: with 3 cups it takes at least 7.'],
  [6, '6 whole orders are too few to tell any two cups apart: with 3 cups it takes at least 7.'],
])('%i whole orders: “%s”', async (times, sentence) => {
  await answer(['BAC'], [times])
  expect((await close()).verdict).toMatchObject({ sentence, told: 'nothing' })
})

test('what chi-squared has to say it for is said: more orders than are counted soon', async () => {
  // by R: chi-squared 2 of pairs of opposite orders is 0, p = 1
  panelId = await openRankPanel(cafe, { seatCount: 110 })
  await answer(['ABC', 'CBA'], [51, 51])
  const { verdict, rank } = await close()
  expect(rank?.first).toMatchObject({ by: 'chi-squared', p: 1, differ: false })
  expect(verdict.numbers[0]).toBe(
    'Friedman’s test of 102 whole orders, by chi-squared as the exact one is too large to count: 0.00 on 2 degrees of freedom, p = 1.000. No pair is read: this test does not say that the cups differ.',
  )
  expect(verdict.sentence).toContain('this panel was large enough, four times out of five.')
})

test('the command gives the page’s numbers from the file', async () => {
  await hold(made.held.alone)
  await (await rankPhone(cafe.world, panelId, 'Left out')).skip()
  const { rank } = await close()
  const { ran } = await again()
  const numbers: unknown = JSON.parse(ran)
  expect(numbers).toMatchObject({
    verb: 'ranking',
    counts: { tasters: 12, cups: 3, ranks: 36 },
    friedman: { chiSquared: rank?.first?.chiSquared, df: 2, pExact: rank?.first?.p },
    cups: ['A', 'B', 'C'].map((cup) => {
      const one = rank?.cups.find((row) => row.cup === cup)
      return { cup, meanRank: one?.meanPlace, firsts: one?.places[0] }
    }),
    worth: ['A', 'B', 'C'].map((cup) => {
      const one = rank?.cups.find((row) => row.cup === cup)?.worth
      return { cup, worth: one?.value, se: one?.se }
    }),
    pairs: [
      { a: 'A', b: 'B', likedA: 1, likedB: 11, signTest: rank?.pairs[0]?.p, signHolm: rank?.pairs[0]?.pHolm },
      { a: 'A', b: 'C', likedA: 7, signHolm: rank?.pairs[1]?.pHolm },
      { a: 'B', b: 'C', likedA: 12, signHolm: rank?.pairs[2]?.pHolm },
    ],
  })
})

test('what gave no whole order is not counted, and said; all cups left out stand once under what is missing', async () => {
  await hold(made.held.none)
  await (await rankPhone(cafe.world, panelId, 'Left out')).skip()
  await rankPhone(cafe.world, panelId, 'Went home')
  const { rank, verdict, missing } = await close()
  expect(rank).toMatchObject({ tasters: 9, without: 2 })
  expect(verdict.numbers.at(-1)).toBe('2 seats were taken and gave no whole order that counts.')
  expect(missing.skipped).toEqual([{ letter: 'A, B and C', seat: 10, reason: 'rather-not' }])
  expect(missing.unscored).toBe(1)
})

test('only a person’s first order counts, when the name is gone too; a link shows no seat', async () => {
  await hold(made.held.alone)
  await (await rankPhone(cafe.world, panelId, ' taster  1 ')).order(trialsOf('CAB'))
  const { rank, verdict } = await close()
  expect(rank).toMatchObject({ tasters: 12, without: 0, later: [13] })
  expect(verdict.numbers.at(-1)).toBe(
    'One order came from a seat that carries the name of an earlier one. Only a person’s first counts; a later one is kept and not counted.',
  )
  const taster = await cafe.db.taster.findFirstOrThrow({ where: { panelId, seat: { number: 13 } } })
  await cafe.db.taster.update({ where: { id: taster.id }, data: { name: null, forgottenAt: cafe.world.now() } })
  expect((await result()).rank).toMatchObject({ tasters: 12, later: [13] })
  expect((await result()).today).toBeNull()
  const { csv, ran } = await again()
  expect(csv.match(/,,[123],later-answer,no,phone,/g)).toHaveLength(3)
  expect(JSON.parse(ran)).toMatchObject({ counts: { tasters: 12 } })
  const link = await shareResult(cafe.world, cafe.owner, panelId)
  const shared = link.ok ? await readShared(cafe.world, link.value) : null
  expect(shared?.result).toMatchObject({ kind: 'rank', rank: { tasters: 12, later: [] } })
  expect(JSON.stringify(shared?.result)).not.toMatch(/seat \d/i)
})

test('a seat set aside before closing is out of the sentence and beside it; what came late is in no number', async () => {
  await answer(['CAB', 'BAC', 'BCA', 'ABC'], [1, 6, 5, 1])
  const late = await rankPhone(cafe.world, panelId, 'Late')
  await setSeatAside(cafe.world, cafe.owner, panelId, 1, 'Had seen the jugs')
  const { rank, asideReadings } = await close()
  await late.order(trialsOf('CAB'))
  expect(rank).toMatchObject({ tasters: 12, best: 'B' })
  expect(asideReadings.map(({ which, verdict }) => [which, verdict.sentence.slice(0, 60)])).toEqual([
    ['with-all', 'Most often put first is cup B (Velvetine 2), by 11 of 13; mo'],
  ])
  expect((await result()).missing.late).toMatchObject([{ letter: 'A, B and C', seat: 14, value: 'C, A, B' }])
  const csv = (await exportScores(cafe.world, cafe.owner, panelId)) ?? ''
  expect(csv.match(/,,[123],set-aside,before-closing,phone,/g)).toHaveLength(3)
  expect(csv.match(/,,[123],late,no,/g)).toHaveLength(3)
  expect(JSON.parse((await again()).ran)).toMatchObject({ counts: { tasters: 12 } })
})

test('one decides on it, and what was on the table says the sentence and no liking', async () => {
  await hold(made.held.alone)
  await close()
  const sent = { kind: 'adopt', trialId: cafe.trialIds[1] ?? '', reason: 'First by eleven' } as const
  expect(await decide(cafe.world, cafe.owner, panelId, sent)).toMatchObject({ ok: true })
  const decision = await cafe.db.decision.findFirstOrThrow({ where: { panelId } })
  const evidence = readEvidence(decision.evidence)
  expect(evidence?.sentence).toContain('Most often put first is cup B (Velvetine 2), by 11 of 12')
  expect(evidence?.trials.map(({ liking }) => liking)).toEqual([null, null, null])
})

test('where liking is asked for, such a panel says that it did not ask', async () => {
  await hold(made.held.none)
  await close()
  const liking = await findBlindLiking(cafe.world, cafe.owner.cafeId, cafe.trialIds.slice(0, 3))
  for (const one of liking.values()) expect(one).toMatchObject({ said: 'no-number', why: 'not-asked' })
  expect(await readMemory(cafe.world, cafe.owner, panelId)).toEqual([])
  expect(await readDose(cafe.world, cafe.owner, panelId)).toBeNull()
})

test('the whole panel as JSON, and what each column means', async () => {
  await answer(['ABC'], [2])
  await close()
  const whole: unknown = JSON.parse((await exportPanel(cafe.world, cafe.owner, panelId)) ?? '{}')
  expect(whole).toMatchObject({ asked: 'rank', plan: { aim: 'best', design: { kind: 'rank', share: 75 } } })
  const columns = (await exportColumns(cafe.world, cafe.owner, panelId)) ?? ''
  const [head = ''] = ((await exportScores(cafe.world, cafe.owner, panelId)) ?? '').split('\r\n')
  for (const column of head.split(',')) expect(columns).toMatch(new RegExp(`^${column},`, 'm'))
})
