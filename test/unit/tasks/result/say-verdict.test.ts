/**
 * What a panel says, in sentences. The first tests are the table of DEVELOPERS.md, row by row: claim, margin, sentence. The others
 * read real scores: test/reference/data/panel-of-eight.json holds R's joint intervals (each pair's own t interval at 1 − α/m),
 * computed by the script named there; the sentences round them.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import { headlineOf } from '@/lib/tasks/result/headline'
import { tastersNeeded } from '@/lib/tasks/result/needed-tasters'
import { answerFor, planOptions, type Planned, type ResultCup } from '@/lib/tasks/result/panel-answers'
import type { PlannedClaim } from '@/lib/tasks/result/planned-claims'
import { nameOf, sayByMargin, sayHeadline, sayVerdict } from '@/lib/tasks/result/say-verdict'

interface Reference {
  readonly scores: Readonly<Record<string, readonly number[]>>
  readonly tastersForOnePoint: number
  readonly tastersForOnePointBetween: readonly [number, number]
}
const fromR = JSON.parse(readFileSync('test/reference/data/panel-of-eight.json', 'utf8')) as Reference

type Scores = Readonly<Record<string, readonly (number | null)[]>>
const rowsOf = (scores: Scores): AcceptanceRow[] =>
  Object.entries(scores).flatMap(([cup, of]) => of.map((score, taster) => ({ taster: String(taster + 1), cup, score })))
const eight = (letters: string): Scores =>
  Object.fromEntries([...letters].map((letter) => [letter, fromR.scores[letter] ?? []]))

const cupsOf = (letters: string, house: string | null): ResultCup[] =>
  [...letters].map((letter, place) => ({
    letter,
    trialId: `t${letter}`,
    trialNumber: place + 1,
    name: `${place + 2}0 g`,
    isHouse: letter === house,
    isTwice: false,
  }))

const plan = (more: Partial<Planned> = {}): Planned => ({
  aim: 'best',
  kind: 'all-pairs',
  house: null,
  pair: [null, null],
  smallestDifference: 1,
  margin: null,
  ...more,
})
const against = (house: string, more: Partial<Planned> = {}) =>
  plan({ aim: 'better', kind: 'against-house', house, ...more })
const asGood = (margin: number) => against('A', { aim: 'as-good', margin })

function say(scores: Scores, question: Planned, house: string | null = question.house) {
  const rows = rowsOf(scores)
  const { answer } = answerFor(rows, planOptions(question), question.margin)
  const scored = Object.keys(scores).filter((cup) => scores[cup]?.some((score) => score !== null))
  const cups = cupsOf(Object.keys(scores).join(''), house)
  const headline = headlineOf(answer, question, scored)
  return { ...sayVerdict(headline, cups, question, answer && tastersNeeded(answer, question)), code: headline.code }
}

describe('the table: at least as good by a margin of half a point', () => {
  const claim = (said: Partial<PlannedClaim>): PlannedClaim => ({
    first: 'B',
    second: 'A',
    tasters: 24,
    difference: 0,
    interval: null,
    claim: 'cannot tell',
    marginInterval: null,
    byMargin: 'cannot tell',
    ifSkipsLowest: null,
    preferFirst: 0,
    preferSecond: 0,
    tied: 0,
    ...said,
  })
  const name = nameOf(cupsOf('AB', 'A'))
  test.each<[string, Partial<PlannedClaim>]>([
    [
      'cup B (30 g) is liked better than the house recipe (cup A) by more than 0.5 points.',
      { claim: 'better', byMargin: 'better by the margin' },
    ],
    [
      'cup B (30 g) is as good as the house recipe (cup A): it is liked better, by less than 0.5 points.',
      { claim: 'better', byMargin: 'as good' },
    ],
    [
      'cup B (30 g) is as good as the house recipe (cup A): they differ by less than 0.5 points.',
      { claim: 'cannot tell', byMargin: 'as good' },
    ],
    [
      'cup B (30 g) is as good as the house recipe (cup A): it is liked less, but by less than 0.5 points.',
      { claim: 'worse', byMargin: 'as good' },
    ],
    [
      'cup B (30 g) is at least as good as the house recipe (cup A): it is liked better, by 0.2 to 0.9 points.',
      { claim: 'better', byMargin: 'not worse', interval: [0.2, 0.9] },
    ],
    [
      'cup B (30 g) is at least as good as the house recipe (cup A): if it is liked less at all, then by less than 0.5 points.',
      { claim: 'cannot tell', byMargin: 'not worse' },
    ],
    [
      'cup B (30 g) is not as good as the house recipe (cup A): it is liked less, by more than 0.5 points.',
      { claim: 'worse', byMargin: 'worse by the margin' },
    ],
    [
      'cup B (30 g) is liked less than the house recipe (cup A), by 0.1 to 0.8 points; whether by 0.5 points or more this panel cannot tell.',
      { claim: 'worse', byMargin: 'second not worse', interval: [-0.8, -0.1] },
    ],
    [
      'whether cup B (30 g) is as good as the house recipe (cup A), or liked less by 0.5 points or more, this panel cannot tell.',
      { claim: 'cannot tell', byMargin: 'second not worse' },
    ],
    [
      'whether cup B (30 g) is as good as the house recipe (cup A), or liked less by 0.5 points or more, this panel cannot tell.',
      { claim: 'cannot tell', byMargin: 'cannot tell' },
    ],
    [
      'too few tasters scored both cup B (30 g) and the house recipe (cup A) to say whether it is as good.',
      { claim: 'too few tasters', byMargin: null },
    ],
  ])('%s', (sentence, said) => {
    expect(sayByMargin(claim(said), 0.5, name)).toBe(sentence)
  })
})

describe('the table: headlines', () => {
  const name = nameOf(cupsOf('ABC', 'A'))
  test.each([
    ['Nobody scored any cup, so there is nothing to compare.', { code: 'nothing-scored' }],
    ['Only cup B (30 g) was scored, so there is nothing to compare it with.', { code: 'one-cup-scored', cup: 'B' }],
    [
      'The house recipe (cup A) got no score, so the planned comparison cannot be made.',
      { code: 'yardstick-unscored', cups: ['A'] },
    ],
    [
      '5 tasters are too few to say which cup is liked better: it takes at least six who scored the same cups.',
      { code: 'too-few-tasters', tasters: 5, compared: [] },
    ],
  ] as const)('%s', (sentence, headline) => {
    expect(sayHeadline(headline, name, null)).toBe(sentence)
  })
})

test('all pairs: what is told apart is said with its joint interval, every pair that is not is named', () => {
  const said = say(eight('ABC'), plan())
  // R: B over A 1.1664 to 2.5836; A and C −1.64 to 0.39; B and C −0.17 to 2.67
  expect(said.sentence).toBe(
    'Cup B (30 g) is liked better than cup A (20 g), by 1.2 to 2.6 points. This panel cannot tell cup C (40 g) from cup A (20 g) nor cup B (30 g) from cup C (40 g).',
  )
  expect(said.numbers).toHaveLength(3)
  // 1.875 lies between two roundings
  expect(said.numbers[0]).toMatch(
    /^Cup B \(30 g\) less cup A \(20 g\): 1\.8[78] points \(joint 95 % interval, over 3 comparisons, 1\.17 to 2\.58\)\. 8 of 8 who scored both scored the first higher, 0 the second, 0 gave both the same\.$/,
  )
  expect(said.told).toBe('better')
})

test('against the house recipe: each cup is spoken of from its own side, and only as far as its joint interval goes', () => {
  // R, two comparisons: B over A 1.2312 to 2.5188, C over A −0.2953 to 1.5453
  expect(say(eight('ABC'), against('A')).sentence).toBe(
    'Cup B (30 g) is liked better than the house recipe (cup A), by 1.2 to 2.5 points. This panel cannot tell cup C (40 g) from the house recipe (cup A).',
  )
  // R: A under B 1.2312 to 2.5188; C and B −2.5375 to 0.0375, which Holm's steps would have called a difference
  expect(say(eight('ABC'), against('B')).sentence).toBe(
    'Cup A (20 g) is liked less than the house recipe (cup B), by 1.2 to 2.5 points. This panel cannot tell cup C (40 g) from the house recipe (cup B).',
  )
})

test('one pair is a family of one: R’s own t interval stands', () => {
  // R: 0.1784 to 2.3216
  const pair = plan({ aim: 'better', kind: 'one-pair', pair: ['B', 'C'] })
  expect(say(eight('ABC'), pair).sentence).toBe('Cup B (30 g) is liked better than cup C (40 g), by 0.2 to 2.3 points.')
})

test('a margin beside another question says what its own 90 % interval allows', () => {
  // R, two comparisons at 90 %: B over A 1.3392 to 2.4108, C over A −0.1409 to 1.3909
  expect(say(eight('ABC'), against('A', { margin: 0.5 })).margin).toEqual([
    'Cup B (30 g) is liked better than the house recipe (cup A) by more than 0.5 points.',
    'Cup C (40 g) is at least as good as the house recipe (cup A): if it is liked less at all, then by less than 0.5 points.',
  ])
})

test('as good as: the aim is met, and its interval is named in the numbers', () => {
  const said = say(eight('ABC'), asGood(0.5))
  expect(said.code).toBe('as-good')
  expect(said.told).toBe('better')
  expect(said.numbers[1]).toContain('read beside the margin at 90 %, five per cent each side: −0.14 to 1.39')
})

test('a cup liked less by more than the margin is said to be, never “cannot tell”', () => {
  // twenty tasters, B three points below A but for one who says two: finding F2
  const a = [7, 8, 7, 8, 7, 8, 7, 8, 7, 8, 7, 8, 7, 8, 7, 8, 7, 8, 7, 8]
  const said = say({ A: a, B: a.map((score, at) => score - (at === 0 ? 2 : 3)) }, asGood(0.5))
  expect(said.sentence).toBe(
    'Cup B (30 g) is not as good as the house recipe (cup A): it is liked less, by more than 0.5 points.',
  )
})

describe('nine of nine alike', () => {
  const low = [4, 5, 6, 5, 4, 6, 5, 4, 5]
  const question = against('A')
  test('two points higher for everybody is a difference, whose error is that of rounding', () => {
    expect(say({ A: low, B: low.map((score) => score + 2) }, question).sentence).toMatch(
      /^Cup B \(30 g\) is liked better than the house recipe \(cup A\), by \d\.\d to \d\.\d points\.$/,
    )
  })

  test('and stays one when a third cup is missing one score', () => {
    const third = low.map((score, at) => (at === 3 ? null : score))
    const said = say({ A: low, B: low.map((score) => score + 2), C: third }, question)
    expect(said.sentence).toMatch(/^Cup B \(30 g\) is liked better than the house recipe/)
    expect(said.sentence).toMatch(/cannot tell cup C \(40 g\) from the house recipe \(cup A\)\.$/)
  })

  test('the same from the other side', () => {
    expect(say({ A: low.map((score) => score + 2), B: low }, question).sentence).toMatch(
      /^Cup B \(30 g\) is liked less than the house recipe/,
    )
  })
})

test('the best stands alone only where it is told from every other, and the range is true for all', () => {
  const base = [4, 5, 6, 5, 4, 6, 5, 4, 5, 6]
  const said = say({ A: base, B: base.map((score) => score + 3), C: base.map((score) => score + 1) }, plan())
  expect(said.code).toBe('best-alone')
  expect(said.sentence).toMatch(/^Cup B \(30 g\) is liked better than every other cup, by at least 1\.\d points\.$/)
})

test('nothing told: every cup is named, with how many tasters the planned difference takes, and never that cups are equal', () => {
  const said = say(eight('AC'), plan())
  expect(said.told).toBe('cannot-tell')
  expect(said.sentence).toMatch(
    /^This panel cannot tell cup A \(20 g\) and cup C \(30 g\) apart\. To find a difference of 1\.0 point, as planned, it takes about \d+ \(\d+ to \d+\) tasters with this panel’s spread\.$/,
  )
  expect(said.next).toContain('does not show that the cups are equal')
  expect(`${said.sentence}${said.numbers.join('')}`).not.toMatch(/equal|same taste|no difference/i)
})

test('the number of tasters is R’s, with what a badly known spread makes of it, and never follows what was seen', () => {
  const needed = (scores: Scores, question: Planned) => {
    const { answer } = answerFor(rowsOf(scores), planOptions(question), null)
    return answer && tastersNeeded(answer, question)
  }
  const [least, most] = fromR.tastersForOnePointBetween
  expect(needed(eight('ABC'), plan())).toMatchObject({ tasters: fromR.tastersForOnePoint, least, most })
  const moved = { ...eight('ABC'), B: (fromR.scores['B'] ?? []).map((score) => score - 1) }
  expect(needed(moved, plan())?.tasters).toBe(fromR.tastersForOnePoint)
})

test('a house recipe that nobody scored is said so, whatever the others got', () => {
  const said = say(
    { A: [null, null, null, null, null, null, null], B: [5, 6, 7, 5, 6, 7, 5], C: [2, 3, 2, 3, 2, 3, 2] },
    against('A'),
  )
  expect(said.sentence).toBe('The house recipe (cup A) got no score, so the planned comparison cannot be made.')
  expect(said.told).toBe('nothing')
})

test('five tasters are too few for a claim, however clear they are', () => {
  const said = say({ A: [1, 2, 1, 2, 1], B: [9, 8, 9, 9, 8] }, plan())
  expect(said.sentence).toMatch(/^5 tasters are too few/)
  expect(said.told).toBe('nothing')
})

test('scores that never varied say so', () => {
  const seven = [7, 7, 7, 7, 7, 7, 7]
  expect(say({ A: seven, B: seven }, plan()).sentence).toBe(
    'Every score is 7: nobody liked one cup better than another. This panel cannot tell cup A (20 g) from cup B (30 g).',
  )
})

test('walk-outs: a cup that only two met is not spoken of as if all had', () => {
  const all = [5, 6, 7, 5, 6, 7, 5, 6]
  const said = say(
    { A: all, B: all.map((score) => score + 2), C: all.map((score, at) => (at < 2 ? score : null)) },
    plan(),
  )
  expect(said.sentence).toMatch(/Cup B \(30 g\) is liked better than cup A/)
  expect(said.sentence).toMatch(/Too few tasters scored both|cannot tell/)
})
