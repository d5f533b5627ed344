/**
 * What a panel of two cups says once it is closed, from phones to the sentence, the file and the command.
 * Expected numbers from R 4 (base): 10 of 11 who preferred one
 *   b <- binom.test(10, 11); b$p.value; b$conf.int          0.01171875; 0.5872200830 to 0.9977010278
 *   the trinomial with 2 without a preference, summed over dmultinom(…, c((1−q)/2, (1−q)/2, q)), q = 2/13, where |x − y| ≥ 9
 *                                                            0.008445148348
 *   9/13 ± qnorm(.975) * sqrt((11/13 − (9/13)^2)/13)          0.3630553242 to 1.0215600605
 * and of 6 of 11: p = 1, 0.2337935977 to 0.8325119059.
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { runStats } from '@/lib/commands/stats/run-stats'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { setSeatAside } from '@/lib/tasks/pour/set-seat-aside'
import { findBlindLiking } from '@/lib/tasks/result/blind-liking'
import { decide } from '@/lib/tasks/result/decide'
import { readEvidence } from '@/lib/tasks/result/decision-evidence'
import { exportColumns, exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { exportDose, readDose } from '@/lib/tasks/result/read-dose'
import { readMemory } from '@/lib/tasks/result/read-memory'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult } from '@/lib/tasks/result/read-result'
import { readShared } from '@/lib/tasks/result/read-shared'
import { shareResult } from '@/lib/tasks/result/share-result'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { choicePhone, openChoicePanel } from '../../support/choice-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  panelId = await openChoicePanel(cafe, { seatCount: 16 })
})
afterEach(() => cafe.close())

/** A phone each, with a name of its own: so many prefer the first trial, the second, neither. */
async function answer(first: number, second: number, none: number) {
  const [a = '', b = ''] = cafe.trialIds
  const said = [...Array<string>(first).fill(a), ...Array<string>(second).fill(b), ...Array<null>(none).fill(null)]
  for (const [at, trialId] of said.entries())
    await (await choicePhone(cafe.world, panelId, `Taster ${at + 1}`)).prefer(trialId)
}

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

test('a preference is told by the exact two-sided test, with its share and what no preference adds', async () => {
  await answer(1, 10, 2)
  const { verdict, choice, found, kind, liking, claims } = await close()
  expect({ kind, liking, claims }).toEqual({ kind: 'choice', liking: null, claims: [] })
  expect(choice).toMatchObject({ cup: 'B', other: 'A', preferred: 10, preferredOther: 1, none: 2, later: [] })
  expect(choice?.p).toBeCloseTo(0.01171875, 10)
  expect(choice?.interval?.[0]).toBeCloseTo(0.587220083, 9)
  expect(choice?.interval?.[1]).toBeCloseTo(0.9977010278, 9)
  expect(choice?.trinomial?.p).toBeCloseTo(0.008445148348, 9)
  expect(choice?.trinomial?.interval[0]).toBeCloseTo(0.3630553242, 9)
  expect(verdict.told).toBe('better')
  expect(verdict.sentence).toBe(
    'Cup B (Velvetine 2) is preferred to cup A (Velvetine 1): by 10 of the 11 who preferred one, 91 % (59 to 100 %).',
  )
  expect(verdict.numbers).toEqual([
    'Exact two-sided test of those who preferred one: 10 to 1, p = 0.012. Of 11 it takes 10 for one of the two.',
    '2 said “no preference” of 13. With them counted, cup B (Velvetine 2) leads by 69 in a hundred of all (36 to 100); trinomial test p = 0.008, shown beside: the sentence above rests on those who preferred one.',
  ])
  expect(found.how).toBe('closing')
})

test('nobody leads where as many chose either, and no lead is more than all', async () => {
  await answer(3, 3, 2)
  const { verdict } = await close()
  // by hand: 0 ± 1.96 · √((6/8 − 0)/8) is 0.60 either way
  expect(verdict.numbers[1]).toMatch(/With them counted, neither leads \(.60 to 60 in a hundred\); trinomial/)
})

test('what cannot be told is called that, with how many the plan would take', async () => {
  await answer(5, 6, 0)
  const { verdict, choice } = await close()
  expect(choice?.p).toBe(1)
  expect(choice?.interval?.[0]).toBeCloseTo(0.2337935977, 9)
  // pbinom: power for 65 : 35 is 0.797 with 88 tasters and 0.812 with 90, for the first time above 0.8
  expect(verdict.sentence).toBe(
    'This panel cannot tell which is preferred: 6 of the 11 who preferred one chose cup B (Velvetine 2), 55 % (23 to 83 %). For 65 to 35, as planned, it takes 90 who prefer one.',
  )
  expect(verdict.told).toBe('cannot-tell')
})

test.each([
  [0, 0, 0, 'Nobody said which of the two they prefer.', 'nothing'],
  [0, 0, 3, 'Nobody preferred one of the two: 3 said “no preference”.', 'cannot-tell'],
  [0, 5, 0, '5 tasters who preferred one are too few to say which is preferred: it takes at least six.', 'nothing'],
])('%i, %i and %i without a preference: “%s”', async (first, second, none, sentence, told) => {
  await answer(first, second, none)
  expect((await close()).verdict).toMatchObject({ sentence, told })
})

test('the command gives the page’s numbers from the file', async () => {
  await answer(10, 1, 2)
  const { choice } = await close()
  const { ran } = await again()
  const numbers = JSON.parse(ran) as Record<string, unknown>
  expect(numbers).toMatchObject({ verb: 'preference', cup: 'A', preferred: 10, total: 13, none: 2 })
  expect(numbers['pTwoSided']).toBe(choice?.p)
  expect(numbers['intervalExact']).toEqual(choice?.interval)
  expect(numbers['pTrinomial']).toBe(choice?.trinomial?.p)
})

test('only a person’s first answer counts: who comes back by name is kept and not counted, when the name is gone too', async () => {
  await answer(0, 10, 0)
  const [a = ''] = cafe.trialIds
  await (await choicePhone(cafe.world, panelId, ' taster  1 ')).prefer(a)
  const { choice, verdict } = await close()
  expect(choice).toMatchObject({ preferred: 10, preferredOther: 0, later: [11] })
  expect(verdict.numbers.at(-1)).toBe(
    'One answer came from a seat that carries the name of an earlier one. Only a person’s first answer counts; a later one is kept and not counted.',
  )
  const taster = await cafe.db.taster.findFirstOrThrow({ where: { panelId, seat: { number: 11 } } })
  await cafe.db.taster.update({ where: { id: taster.id }, data: { name: null, forgottenAt: cafe.world.now() } })
  expect((await result()).choice).toMatchObject({ preferred: 10, later: [11] })
  expect((await result()).today).toBeNull()
  const { csv, ran } = await again()
  expect(csv).toMatch(/,A,later-answer,no,phone,/)
  expect(JSON.parse(ran)).toMatchObject({ preferred: 0, total: 10 })
})

test('a link shows the sentence and the shares, and no seat', async () => {
  await answer(0, 10, 0)
  const [a = ''] = cafe.trialIds
  await (await choicePhone(cafe.world, panelId, 'Taster 1')).prefer(a)
  await close()
  const link = await shareResult(cafe.world, cafe.owner, panelId)
  const shared = link.ok ? await readShared(cafe.world, link.value) : null
  expect(shared?.result).toMatchObject({ kind: 'choice', choice: { preferred: 10, later: [] } })
  expect(JSON.stringify(shared?.result)).not.toMatch(/seat \d/i)
})

test('a phone that is passed on is no sign of the same person', async () => {
  const [, b = ''] = cafe.trialIds
  const ana = await choicePhone(cafe.world, panelId, 'Ana')
  await ana.prefer(b)
  const ben = await choicePhone(cafe.world, panelId, 'Ben')
  await ben.prefer(b)
  await cafe.db.seat.updateMany({
    where: { panelId, number: ben.seat },
    data: { repeatOfSeatId: (await cafe.db.seat.findFirstOrThrow({ where: { panelId, number: ana.seat } })).id },
  })
  expect((await close()).choice).toMatchObject({ preferred: 2, later: [] })
})

test('who comes back on a phone that somebody else had first is known by name all the same', async () => {
  const [a = '', b = ''] = cafe.trialIds
  const ana = await choicePhone(cafe.world, panelId, 'Ana')
  await ana.prefer(b)
  await (await choicePhone(cafe.world, panelId, 'Ben')).prefer(b)
  const again = await choicePhone(cafe.world, panelId, 'Ben')
  await again.prefer(a)
  // the phone was Ana’s first: its later seats are flagged as perhaps hers, the newest of them too
  const { id } = await cafe.db.seat.findFirstOrThrow({ where: { panelId, number: ana.seat } })
  await cafe.db.seat.updateMany({
    where: { panelId, takenAt: { not: null }, id: { not: id } },
    data: { repeatOfSeatId: id },
  })
  expect((await close()).choice).toMatchObject({ preferred: 2, preferredOther: 0, later: [again.seat] })
})

test('a seat set aside before closing is out of the sentence and beside it; what came late is in no number', async () => {
  await answer(1, 10, 0)
  const [a = ''] = cafe.trialIds
  const late = await choicePhone(cafe.world, panelId, 'Late')
  await setSeatAside(cafe.world, cafe.owner, panelId, 1, 'Had seen the jugs')
  const { choice, asideReadings, missing } = await close()
  await late.prefer(a)
  expect(choice).toMatchObject({ cup: 'B', preferred: 10, preferredOther: 0 })
  expect(asideReadings.map(({ which, verdict }) => [which, verdict.sentence])).toEqual([
    [
      'with-all',
      'Cup B (Velvetine 2) is preferred to cup A (Velvetine 1): by 10 of the 11 who preferred one, 91 % (59 to 100 %).',
    ],
  ])
  expect(missing).toMatchObject({ unscored: 1, skipped: [], notTaken: [13, 14, 15, 16] })
  const csv = (await exportScores(cafe.world, cafe.owner, panelId)) ?? ''
  expect(csv).toMatch(/,A,set-aside,before-closing,phone,/)
  expect(csv).toMatch(/,A,late,no,/)
  expect(JSON.parse((await again()).ran)).toMatchObject({ total: 10 })
})

test('both cups left out stand under what is missing once, with the reason', async () => {
  const ana = await choicePhone(cafe.world, panelId)
  await ana.skip()
  const { missing, verdict } = await close()
  expect(missing.skipped).toEqual([{ letter: 'A and B', seat: 1, reason: 'rather-not' }])
  expect(missing.unscored).toBe(0)
  expect(verdict.told).toBe('nothing')
})

test('one decides on it, and what was on the table says the sentence and no liking', async () => {
  await answer(1, 10, 0)
  await close()
  const [, b = ''] = cafe.trialIds
  const sent = { kind: 'adopt', trialId: b, reason: 'Ten of eleven' } as const
  expect(await decide(cafe.world, cafe.owner, panelId, sent)).toMatchObject({ ok: true })
  const decision = await cafe.db.decision.findFirstOrThrow({ where: { panelId } })
  const evidence = readEvidence(decision.evidence)
  expect(evidence?.sentence).toContain('is preferred to')
  expect(evidence?.trials.map(({ liking }) => liking)).toEqual([null, null])
})

test('where liking is asked for, such a panel says that it did not ask', async () => {
  await answer(1, 10, 0)
  await close()
  const liking = await findBlindLiking(cafe.world, cafe.owner.cafeId, cafe.trialIds.slice(0, 2))
  for (const one of liking.values()) expect(one).toMatchObject({ said: 'no-number', why: 'not-asked' })
  expect(await readMemory(cafe.world, cafe.owner, panelId)).toEqual([])
  expect(await readDose(cafe.world, cafe.owner, panelId)).toBeNull()
  expect(await exportDose(cafe.world, cafe.owner, panelId)).toBe('taster,cup,dose,score\r\n')
})

test('the whole panel as JSON, and what each column means', async () => {
  await answer(1, 1, 1)
  await close()
  const whole: unknown = JSON.parse((await exportPanel(cafe.world, cafe.owner, panelId)) ?? '{}')
  expect(whole).toMatchObject({ asked: 'choice', plan: { design: { kind: 'choice', none: true, share: 65 } } })
  const columns = (await exportColumns(cafe.world, cafe.owner, panelId)) ?? ''
  const [head = ''] = ((await exportScores(cafe.world, cafe.owner, panelId)) ?? '').split('\r\n')
  for (const column of head.split(',')) expect(columns).toMatch(new RegExp(`^${column},`, 'm'))
})
