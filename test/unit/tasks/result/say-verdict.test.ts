/**
 * What a panel says, in sentences. Scores and the p-values that allow each sentence: test/reference/data/panel-of-eight.json
 * (R, see its script): B over A with p below 0.001; A and C 0.095, B and C 0.056, both not below 0.05.
 */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { firstVerdict as acceptance } from '@/lib/stats/liking/first-verdict'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import { answerFor, primaryAnswer, type Planned, type ResultCup } from '@/lib/tasks/result/panel-answers'
import { comparisons, sayVerdict, tastersNeeded } from '@/lib/tasks/result/say-verdict'

const { scores } = JSON.parse(readFileSync('test/reference/data/panel-of-eight.json', 'utf8')) as {
  scores: Readonly<Record<string, readonly number[]>>
}

const rowsOf = (letters: string): AcceptanceRow[] =>
  [...letters].flatMap((cup) =>
    (scores[cup] ?? []).map((score, taster) => ({ taster: String(taster + 1), cup, score })),
  )

const cups = (house: string | null): ResultCup[] =>
  ['A', 'B', 'C'].map((letter, place) => ({
    letter,
    trialId: `t${letter}`,
    trialNumber: place + 1,
    name: `${place + 2}0 g`,
    isHouse: letter === house,
    isTwice: false,
  }))

const plan = (more: Partial<Planned> = {}): Planned => ({
  kind: 'all-pairs',
  house: null,
  pair: [null, null],
  smallestDifference: 1,
  margin: null,
  ...more,
})

test('all pairs: what is told apart is said with its interval, what is not is named', () => {
  const said = sayVerdict(answerFor(rowsOf('ABC'), plan()).answer, cups(null), plan())
  expect(said.sentence).toBe(
    'Cup B (30 g) is liked better than cup A (20 g), by 1.3 to 2.4 points; between cup B (30 g) and cup C (40 g) this panel cannot tell.',
  )
  expect(said.numbers).toHaveLength(3)
  expect(said.numbers[0]).toMatch(
    /difference 1\.88 points \(95 % interval 1\.34 to 2\.41\), adjusted p below 0\.001; 8 scored the first higher, 0 the second/,
  )
})

test('against the house recipe: each cup is spoken of from its own side', () => {
  const against = plan({ kind: 'against-house', house: 'A' })
  const { answer } = answerFor(rowsOf('ABC'), against)
  const said = sayVerdict(answer, cups('A'), against)
  expect(said.sentence).toBe(
    'Cup B (30 g) is liked better than the house recipe (cup A), by 1.3 to 2.4 points. About cup C (40 g) this panel cannot tell.',
  )
  expect(said.numbers).toHaveLength(2)
})

test('a cup liked less than the house recipe is said so, with the points on the right side', () => {
  const against = plan({ kind: 'against-house', house: 'B' })
  const said = sayVerdict(answerFor(rowsOf('ABC'), against).answer, cups('B'), against)
  // R: B and C differ by 1.25 (0.18 to 2.32), raw p 0.028, the second of a family of two
  expect(said.sentence).toBe(
    'Cup A (20 g) and cup C (40 g) are liked less than the house recipe (cup B), by 1.3 to 2.4 and 0.2 to 2.3 points.',
  )
})

test('one pair is a family of one: R’s paired p stands unadjusted', () => {
  const pair = plan({ kind: 'one-pair', pair: ['B', 'C'] })
  const [one] = comparisons(primaryAnswer(rowsOf('ABC'), pair).answer ?? neverNull())
  // R: p of B and C adjusted over three pairs is 0.05632, their raw p is half of it (Holm's second step): 0.02816
  expect(one?.p).toBeCloseTo(0.0563227938180174 / 2, 8)
  expect(one?.told).toBe('better')
})

test('a panel that cannot tell says how many tasters the planned difference takes, and never that cups are equal', () => {
  const { answer } = answerFor(rowsOf('AC'), plan())
  const said = sayVerdict(answer, cups(null), plan())
  expect(said.told).toBe('cannot-tell')
  expect(said.sentence).toMatch(
    /^This panel cannot tell the cups apart\. To find a difference of 1\.0 point, as planned, it takes about \d+ tasters/,
  )
  expect(said.next).toContain('does not show that the cups are equal')
  expect(`${said.sentence}${said.numbers.join('')}`).not.toMatch(/equal|same taste|no difference/i)
})

test('the number of tasters follows the planned difference, not the one that was seen', () => {
  const far = acceptance(rowsOf('AB'), { level: 0.95 })
  const moved = acceptance(
    rowsOf('AB').map((row) => (row.cup === 'B' ? { ...row, score: (row.score ?? 0) - 1 } : row)),
    { level: 0.95 },
  )
  expect(tastersNeeded(far, plan())?.tasters).toBe(tastersNeeded(moved, plan())?.tasters)
  expect(tastersNeeded(far, plan({ smallestDifference: 0.5 }))?.tasters).toBeGreaterThan(
    tastersNeeded(far, plan())?.tasters ?? 0,
  )
})

test('a margin speaks only of what holds, and only against the house recipe', () => {
  const against = plan({ kind: 'against-house', house: 'A', margin: 0.5 })
  const said = sayVerdict(answerFor(rowsOf('ABC'), against).answer, cups('A'), against)
  expect(said.margin).toEqual([
    'Cup B (30 g) is not worse than the house recipe (cup A) by 0.5 points or more.',
    'Cup C (40 g) is not worse than the house recipe (cup A) by 0.5 points or more.',
  ])
})

test('too few scores are no verdict', () => {
  expect(sayVerdict(null, cups(null), plan()).told).toBe('nothing')
  expect(
    sayVerdict(
      answerFor(
        rowsOf('ABC').filter((row) => row.taster === '1'),
        plan(),
      ).answer,
      cups(null),
      plan(),
    ).told,
  ).toBe('nothing')
  expect(answerFor([], plan())).toEqual({ answer: null, why: 'Nobody scored any cup.' })
})

function neverNull(): never {
  throw new Error('there is an answer')
}
