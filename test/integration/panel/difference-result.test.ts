/**
 * What a panel that asks whether two cups can be told apart says once it is closed, from phones to the sentence, the file and
 * the command. Expected numbers from R 4.2 (base), test/reference/make/told-apart.R; tolerance 1e-9, both sum the same terms.
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { runStats } from '@/lib/commands/stats/run-stats'
import type { DifferenceDesign } from '@/lib/panel/kinds/difference'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { setSeatAside } from '@/lib/tasks/pour/set-seat-aside'
import { findBlindLiking } from '@/lib/tasks/result/blind-liking'
import { decide } from '@/lib/tasks/result/decide'
import { readEvidence } from '@/lib/tasks/result/decision-evidence'
import { exportColumns, exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResult } from '@/lib/tasks/result/read-result'
import { readShared } from '@/lib/tasks/result/read-shared'
import { shareResult } from '@/lib/tasks/result/share-result'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { differencePhone, openDifferencePanel } from '../../support/difference-panel'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

/** A phone each, with a name of its own: what each says to its sets, right or wrong. */
async function hold(design: Partial<DifferenceDesign>, tellers: readonly (readonly boolean[])[]) {
  panelId = await openDifferencePanel(cafe, design, { seatCount: 16 })
  for (const [at, said] of tellers.entries()) {
    const phone = await differencePhone(cafe.world, panelId, `Taster ${at + 1}`)
    for (const [set, isRight] of said.entries()) await phone.tell(isRight, set + 1)
  }
}

/** So many right of so many, one answer each. */
const of = (right: number, all: number) => Array.from({ length: all }, (_, at) => [at < right])

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
  return { csv, ran: JSON.parse(ran) as Record<string, unknown> }
}

test('that tasters can tell is told by the exact one-sided test, with the share who can and its interval', async () => {
  await hold({}, of(9, 12))
  const { verdict, difference, found, kind, liking, claims, choice } = await close()
  expect({ kind, liking, claims, choice }).toEqual({ kind: 'difference', liking: null, claims: [], choice: null })
  expect(difference).toMatchObject({ cup: 'A', other: 'B', tasters: 12, answers: 12, right: 9, critical: 8 })
  expect(difference?.p).toBeCloseTo(0.003855555, 9)
  expect(difference?.telling?.estimate).toBeCloseTo(0.625, 12)
  expect(difference?.telling?.interval?.[0]).toBeCloseTo(0.1422123072, 9)
  expect(difference?.telling?.interval?.[1]).toBeCloseTo(0.9177090332, 9)
  expect(verdict).toMatchObject({
    sentence:
      'Tasters can tell cup A (Velvetine 1) from cup B (Velvetine 2): 9 of 12 answers were right, where luck gives about 4. About 63 % of tasters can really tell (14 to 92 %).',
    told: 'better',
  })
  expect(verdict.numbers[0]).toBe(
    'Exact one-sided test against luck, one in three: 9 of 12 right, p = 0.004. Of 12 it takes 8.',
  )
  expect(found.how).toBe('closing')
})

test('what is not shown to differ is never called the same', async () => {
  await hold({}, of(5, 12))
  const { verdict, difference } = await close()
  expect(difference?.p).toBeCloseTo(0.3684792856, 9)
  // 40 tasters for 30 in a hundred: the published number (ISO 4120)
  expect(verdict).toMatchObject({
    sentence:
      'Cup A (Velvetine 1) and cup B (Velvetine 2) are not shown to differ: 5 of 12 answers were right, where luck gives about 4, and it takes 8. That is not the same as alike: up to 58 % may be able to tell. To find that 30 % can tell, as planned, it takes 40 tasters.',
    told: 'cannot-tell',
  })
  expect(verdict.next).toContain('does not show that the cups are equal')
})

test.each(['duo-trio', 'tetrad', 'three-afc', 'two-afc'] as const)(
  '%s: what is right is worked out by its method',
  async (protocol) => {
    const property = protocol.endsWith('afc') ? 'sweeter' : null
    const half = protocol === 'duo-trio' || protocol === 'two-afc'
    await hold({ protocol, property }, half ? of(11, 12) : of(9, 12))
    const { verdict, difference } = await close()
    expect(difference).toMatchObject(half ? { right: 11, critical: 10 } : { right: 9, critical: 8 })
    expect(difference?.p).toBeCloseTo(half ? 0.0031738281 : 0.003855555, 9)
    if (protocol === 'two-afc') expect(difference?.dPrime?.estimate).toBeCloseTo(1.9558490512, 8)
    expect(verdict.sentence).toMatch(
      property === null
        ? /^Tasters can tell cup A \(Velvetine 1\) from cup B/
        : /^Tasters find cup A \(Velvetine 1\) sweeter than cup B \(Velvetine 2\): /,
    )
    const { ran } = await again()
    expect(ran).toMatchObject({
      verb: 'difference',
      p: difference?.p,
      counts: { tasters: 12, correct: difference?.right },
    })
  },
)

test('a property that goes the other way is not told, and is pointed out', async () => {
  await hold({ protocol: 'two-afc', property: 'sweeter' }, of(1, 12))
  const { verdict } = await close()
  expect(verdict.sentence).toMatch(/^It is not shown that cup A \(Velvetine 1\) is sweeter than cup B/)
  expect(verdict.told).toBe('cannot-tell')
  expect(verdict.numbers.join(' ')).toContain('the other cup may be sweeter. The plan asked one direction only')
})

test('so few right that luck does not explain it is never read as few who can tell', async () => {
  // R: pbinom(0, 12, 1/3) = 0.007707347
  await hold({ aim: 'alike', share: 60 }, of(0, 12))
  const { verdict } = await close()
  expect(verdict).toMatchObject({
    sentence:
      'It is not shown that few can tell cup A (Velvetine 1) from cup B (Velvetine 2): 0 of 12 answers were right, where luck gives about 4. So few are right that luck does not explain it: look for a fault in how it was served or asked.',
    told: 'cannot-tell',
  })
})

test('a set that somebody would rather not taste says nothing of a lowest score', async () => {
  await hold({}, of(6, 12))
  await cafe.db.serving.updateMany({
    where: { panelId, seat: { number: 1 } },
    data: { skippedAt: cafe.world.now(), skipReason: 'rather-not', skipSource: 'phone' },
  })
  const { beside } = await close()
  expect(beside).toEqual([])
})

test('that few can tell is told by the upper limit below the bound, and does not make them the same', async () => {
  await hold({ aim: 'alike', share: 60 }, of(4, 12))
  const { verdict, difference } = await close()
  expect(difference?.similarity).toMatchObject({ bound: 0.6, most: 5, shown: true })
  expect(difference?.similarity?.p).toBeCloseTo(0.0043212324, 9)
  expect(difference?.similarity?.upper).toBeCloseTo(0.4137065473, 9)
  expect(verdict).toMatchObject({
    sentence:
      'Few can tell cup A (Velvetine 1) from cup B (Velvetine 2): fewer than the planned 60 %, at most 41 % at 95 %. 4 of 12 answers were right, where luck gives about 4. That does not make them the same.',
    told: 'better',
  })
  const { ran } = await again()
  expect(ran).toMatchObject({ similarity: { limit: 0.6, similar: true, upper: difference?.similarity?.upper } })
})

test('where it is not shown that few can tell, the sentence says how many may', async () => {
  await hold({ aim: 'alike', share: 60 }, of(7, 12))
  const { verdict, difference } = await close()
  expect(difference?.similarity?.p).toBeCloseTo(0.1939135121, 9)
  expect(verdict.sentence).toContain(
    'It is not shown that few can tell cup A (Velvetine 1) from cup B (Velvetine 2): 7 of 12 answers were right, where luck gives about 4, and it takes at most 5 right. As many as 73 % may be able to tell, and few is fewer than 60 %.',
  )
  expect(verdict.told).toBe('cannot-tell')
})

test('several answers each: the test takes all, the share comes from the tasters, and it is said so', async () => {
  const both = [true, true]
  await hold({ each: 2 }, [both, both, both, [true, false], [false, false], both, [false, true], both])
  const { verdict, difference } = await close()
  expect(difference).toMatchObject({ tasters: 8, each: 2, answers: 16, right: 12 })
  expect(difference?.p).toBeCloseTo(0.0007924645, 9)
  expect(difference?.telling?.interval?.[0]).toBeCloseTo(0.1510206894, 9)
  expect(difference?.telling?.interval?.[1]).toBeCloseTo(1.0989793106, 9)
  expect(verdict.sentence).toContain(
    '12 of 16 answers were right, where luck gives about 5. About 63 % of tasters can really tell (15 to 100 %).',
  )
  expect(verdict.numbers.join(' ')).toContain('8 tasters gave 2 answers each. The test takes all 16')
  const { ran } = await again()
  expect(ran).toMatchObject({ p: difference?.p, counts: { tasters: 8, answers: 16, correct: 12 } })
})

test('who gave fewer answers than planned is kept and not counted, in the file too', async () => {
  const both = [true, true]
  await hold({ each: 2 }, [both, both, both, both, [true]])
  const last = await differencePhone(cafe.world, panelId, 'Skips')
  await last.tell(true)
  await last.skip(2)
  const { difference, verdict, missing } = await close()
  expect(difference).toMatchObject({ tasters: 4, answers: 8, right: 8, incomplete: [5, 6] })
  expect(verdict.numbers.at(-1)).toContain('2 seats gave fewer than the 2 answers planned.')
  expect(missing.skipped).toEqual([{ letter: 'A and B', seat: 6, reason: 'spilt-or-missing' }])
  const { csv, ran } = await again()
  expect(csv.match(/,incomplete,/g)).toHaveLength(2)
  expect(ran).toMatchObject({ counts: { tasters: 4, answers: 8 } })
})

test('only a person’s first answers count: who comes back by name is kept and not counted, when the name is gone too', async () => {
  await hold({}, of(9, 12))
  await (await differencePhone(cafe.world, panelId, ' taster  1 ')).tell(true)
  const { difference, verdict } = await close()
  expect(difference).toMatchObject({ right: 9, answers: 12, later: [13] })
  expect(verdict.numbers.at(-1)).toBe(
    'One seat carries the name of an earlier one. Only a person’s first answers count; later ones are kept and not counted.',
  )
  const taster = await cafe.db.taster.findFirstOrThrow({ where: { panelId, seat: { number: 13 } } })
  await cafe.db.taster.update({ where: { id: taster.id }, data: { name: null, forgottenAt: cafe.world.now() } })
  expect((await result()).difference).toMatchObject({ right: 9, later: [13] })
  expect((await result()).today).toBeNull()
  const { csv, ran } = await again()
  expect(csv).toMatch(/,later-answer,no,phone,/)
  expect(ran).toMatchObject({ counts: { tasters: 12, correct: 9 } })
})

test('a seat set aside before closing is out of the sentence and beside it; what came late is in no number', async () => {
  await hold({}, of(9, 11))
  const late = await differencePhone(cafe.world, panelId, 'Late')
  await setSeatAside(cafe.world, cafe.owner, panelId, 11, 'Had a cold')
  const { difference, asideReadings } = await close()
  expect(await late.answer(await late.said(true))).toMatchObject({ reason: 'kept-late' })
  expect(difference).toMatchObject({ answers: 10, right: 9 })
  expect(asideReadings.map(({ which, verdict }) => [which, verdict.sentence.includes('9 of 11')])).toEqual([
    ['with-all', true],
  ])
  const { csv, ran } = await again()
  expect(csv).toMatch(/,set-aside,before-closing,phone,/)
  expect(csv).toMatch(/,late,no,/)
  expect(ran).toMatchObject({ counts: { tasters: 10 } })
})

test.each([
  [{}, [], 'Nobody answered, so there is nothing to say.'],
  [{}, of(1, 1), 'One answer is too few to show a difference, whatever the answers are.'],
  [
    { aim: 'alike', share: 20 },
    of(0, 3),
    '3 answers are too few to show that fewer than 20 % can tell cup A (Velvetine 1) from cup B (Velvetine 2), whatever the answers are.',
  ],
] as const)('too few of %j: “%#”', async (design, tellers, sentence) => {
  await hold(design, tellers)
  expect((await close()).verdict).toMatchObject({ sentence, told: 'nothing' })
})

test('a link shows the sentence and the share, and no seat', async () => {
  await hold({}, of(9, 12))
  await (await differencePhone(cafe.world, panelId, 'Taster 1')).tell(true)
  await close()
  const link = await shareResult(cafe.world, cafe.owner, panelId)
  const shared = link.ok ? await readShared(cafe.world, link.value) : null
  expect(shared?.result).toMatchObject({ kind: 'difference', difference: { right: 9, later: [], incomplete: [] } })
  expect(JSON.stringify(shared?.result)).not.toMatch(/seat \d/i)
})

test('one decides on it; where liking is asked for it says that it did not ask; all of it leaves as JSON', async () => {
  await hold({}, of(9, 12))
  await close()
  const sent = { kind: 'adopt', trialId: cafe.trialIds[1] ?? '', reason: 'They can tell' } as const
  expect(await decide(cafe.world, cafe.owner, panelId, sent)).toMatchObject({ ok: true })
  const decision = await cafe.db.decision.findFirstOrThrow({ where: { panelId } })
  expect(readEvidence(decision.evidence)?.sentence).toContain('Tasters can tell')
  const liking = await findBlindLiking(cafe.world, cafe.owner.cafeId, cafe.trialIds.slice(0, 2))
  for (const one of liking.values()) expect(one).toMatchObject({ said: 'no-number', why: 'not-asked' })
  const whole: unknown = JSON.parse((await exportPanel(cafe.world, cafe.owner, panelId)) ?? '{}')
  expect(whole).toMatchObject({ asked: 'difference', plan: { design: { kind: 'difference', protocol: 'triangle' } } })
  const columns = (await exportColumns(cafe.world, cafe.owner, panelId)) ?? ''
  const [head = ''] = ((await exportScores(cafe.world, cafe.owner, panelId)) ?? '').split('\r\n')
  for (const column of head.split(',')) expect(columns).toMatch(new RegExp(`^${column},`, 'm'))
})
