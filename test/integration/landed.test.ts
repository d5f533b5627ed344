/**
 * What a house of an earlier version holds is kept and can be read: databases that landed versions made, brought up to date by
 * the real `migrate`. Expected rows are those of the file itself, read with plain better-sqlite3 before anything of ours has
 * touched it; expected sentences are those that the landed version's own result pages said (test/fixtures/*.said.json).
 */
import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readFrozenSheet } from '@/lib/forms/frozen-sheet'
import { readClosingAnswer, type FirstAnswered } from '@/lib/tasks/result/closing-answer'
import { readResult } from '@/lib/tasks/result/read-result'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { worldOf, type World } from '@/lib/tasks/world'
import { asBefore, dump, type Rows } from '../support/dump'
import { copyOfLanded, LANDED, openLanded } from '../support/landed'
import { READ_HERE, readEverything, readingTasks } from '../support/read-everything'

const today = (landed: { readonly db: World['db'] }): World => ({
  ...worldOf(landed.db),
  now: () => new Date('2026-11-26T08:00:00Z'),
})

describe.each(LANDED)('%s', (name) => {
  let landed: Awaited<ReturnType<typeof openLanded>>
  let before: Rows
  beforeAll(async () => {
    const copy = copyOfLanded(name)
    before = dump(copy.file)
    copy.throwAway()
    landed = await openLanded(name)
  })
  afterAll(() => landed.close())

  test('holds something in every table it knows', () => {
    expect([...before].filter(([, rows]) => rows.length === 0).map(([table]) => table)).toEqual([])
  })

  test('keeps every row and every column as they were', () => {
    const after = dump(landed.file)
    expect(asBefore(before, after)).toEqual(before)
    for (const [table, rows] of before) expect([table, after.get(table)?.length]).toEqual([table, rows.length])
  })

  test('lets every page be read', { timeout: 600_000 }, async () => {
    const { readings, failed } = await readEverything(today(landed))
    // A pack and a share that were stored as nothing: their prices are not known, and no page stops for it.
    expect(failed).toEqual([])
    expect(readings).toBeGreaterThan(300)
  })
})

test('every reading task is among those that are tried', () => {
  expect(readingTasks()).toEqual(READ_HERE)
})

/** What the landed page showed of its numbers: means, and each pair's difference with what its verdict rested on. */
function sameNumbers(kept: FirstAnswered['liking'], page: FirstAnswered['liking']): boolean {
  if (!kept || !page) return kept === page
  const shown = ({ counts, cups, pairs }: NonNullable<FirstAnswered['liking']>) => [
    Object.values(counts),
    cups.map(({ cup, n, mean, sd }) => [cup, n, mean, sd]),
    pairs.map(({ a, b, difference, se, df, interval, paired, verdict }) => [
      [a, b, difference, se, df, interval?.[0], interval?.[1]],
      [paired.n, paired.difference, paired.se, paired.df, paired.interval?.[0], paired.interval?.[1]],
      [verdict.basis, verdict.pHolm, verdict.outcome],
    ]),
  ]
  const flat = (answer: NonNullable<FirstAnswered['liking']>) => shown(answer).flat(4)
  const [ours, theirs] = [flat(kept), flat(page)]
  return (
    ours.length === theirs.length &&
    ours.every((one, place) => {
      const other = theirs[place]
      // Digits of the last places may move with the machine.
      if (typeof one === 'number' && typeof other === 'number') return Math.abs(one - other) < 1e-9
      return (one ?? null) === (other ?? null)
    })
  )
}

describe('landed-0001-start.db, upgraded', () => {
  let landed: Awaited<ReturnType<typeof openLanded>>
  beforeAll(async () => {
    landed = await openLanded('landed-0001-start.db')
  })
  afterAll(() => landed.close())

  test('a price holds from the day that was typed, or from the café’s own day of the moment it was entered', async () => {
    const prices = await landed.db.ingredientPrice.findMany({
      include: { ingredient: { select: { name: true } } },
      orderBy: { createdAt: 'asc' },
    })
    const days = prices.map((price) => [price.ingredient.name, price.since.toISOString().slice(0, 16), price.day])
    // By hand. Manila is 8 hours ahead of UTC, Los Angeles 8 behind in November, Lisbon with it.
    expect(days).toEqual(
      expect.arrayContaining([
        ['Date paste (demo)', '2026-09-21T09:00', '2026-09-21'], // 17:00 in Manila
        ['Date paste (demo)', '2027-03-01T00:00', '2027-03-01'], // typed as a day, 08:00 in Manila or not
        ['Cardamom pods (demo)', '2026-11-21T10:00', '2026-11-21'], // 18:00 in Manila
        ['Cardamom pods (demo)', '2026-11-21T00:00', '2026-11-21'], // typed
        ['Whole milk, 3.25 % fat', '2026-11-21T20:30', '2026-11-22'], // 04:30 of the next day in Manila
        ['Whole milk, 3.25 % fat', '2026-11-24T03:00', '2026-11-23'], // 19:00 of the day before in Los Angeles
        ['Whole milk, 3.25 % fat', '2026-11-24T07:00', '2026-11-24'], // 07:00 in Lisbon
      ]),
    )
    expect(prices.filter((price) => !/^\d{4}-\d{2}-\d{2}$/.test(price.day))).toEqual([])
  })

  type Numbers = NonNullable<FirstAnswered['liking']>
  type Said = {
    verdict: unknown
    needed: unknown
    why: unknown
    liking: Numbers | null
    aspects: { name: string; answer: Numbers | null }[]
  }
  const said = (
    JSON.parse(readFileSync('test/fixtures/landed-0001-start.said.json', 'utf8')) as { panels: Record<string, Said> }
  ).panels

  test.each(Object.entries(said))('the panel “%s” keeps what its page said', async (title, page) => {
    const panel = await landed.db.panel.findFirstOrThrow({ where: { title } })
    expect(panel.closingAnswerHow).toBe('upgrade')
    expect(panel.closingAnswerAt).not.toBeNull()
    const kept = readClosingAnswer(panel.closingAnswer ?? '')
    if (!kept.ok || kept.value.outcome !== 'answered' || kept.value.version !== 1)
      throw new Error(`nothing readable is kept of ${title}`)
    const { verdict, needed, why } = kept.value
    expect({ verdict, needed, why }).toEqual({ verdict: page.verdict, needed: page.needed, why: page.why })
    expect(sameNumbers(kept.value.liking, page.liking)).toBe(true)
    expect(kept.value.aspects.map(({ name }) => name)).toEqual(page.aspects.map(({ name }) => name))
    for (const [place, { answer }] of kept.value.aspects.entries())
      expect(sameNumbers(answer, page.aspects[place]?.answer ?? null)).toBe(true)
    const result = await readResult(today(landed), { userId: '', cafeId: panel.cafeId }, panel.id)
    expect(result?.verdict).toEqual(page.verdict)
    expect(result?.found).toMatchObject({ how: 'upgrade', method: 'paired-or-model-2026-11' })
  })

  test('a panel that is not over keeps nothing', async () => {
    const rows = await landed.db.panel.findMany({ where: { stage: { in: ['draft', 'open'] } } })
    expect(rows.length).toBeGreaterThan(2)
    expect(rows.filter((row) => row.closingAnswer ?? row.closingAnswerAt ?? row.closingAnswerHow)).toEqual([])
  })

  test('no panel that is over is left without', async () => {
    const rows = await landed.db.panel.findMany({ where: { stage: { in: ['closed', 'decided'] } } })
    expect(rows.map((row) => row.title).toSorted()).toEqual(Object.keys(said).toSorted())
  })
})

type Written = {
  lines: { name: string; targetGrams: number; density: number | null }[]
  brew: { extractionPercent: number | null; strengthPercent: number | null; ratio: number | null } | null
}

describe.each(LANDED)('the frozen sheets of %s', (name) => {
  let landed: Awaited<ReturnType<typeof openLanded>>
  beforeAll(async () => {
    landed = await openLanded(name)
  })
  afterAll(() => landed.close())

  test('are read by their shape alone, whatever today’s checks say of them', async () => {
    const trials = await landed.db.trial.findMany({ where: { frozenSheet: { not: null } } })
    expect(trials.length).toBeGreaterThan(15)
    for (const trial of trials) {
      // What stands in the text, read with nothing but JSON.
      const kept = JSON.parse(trial.frozenSheet ?? '') as { sheet?: Written; figures?: unknown } & Written
      const written = kept.sheet ?? kept
      const read = readFrozenSheet(trial.frozenSheet ?? '')
      if (!read.ok) throw new Error(`${trial.name}: ${JSON.stringify(read)}`)
      const { lines, brew } = read.value.build
      const shown = ({ name: of, targetGrams, density }: Written['lines'][number]) => [of, targetGrams, density]
      expect(lines.map(shown)).toEqual(written.lines.map(shown))
      expect([brew?.extractionPercent, brew?.strengthPercent, brew?.ratio]).toEqual([
        written.brew?.extractionPercent,
        written.brew?.strengthPercent,
        written.brew?.ratio,
      ])
      const cafe = await landed.db.cafe.findUniqueOrThrow({ where: { id: trial.cafeId } })
      const sheet = await readTrial(today(landed), { userId: '', cafeId: cafe.id, cafe }, trial.id)
      expect([trial.name, sheet?.figuresOf]).toEqual([
        trial.name,
        kept.figures ? 'its day' : 'its day, worked out today',
      ])
    }
  })
})
