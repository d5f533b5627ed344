/** Each row of the table of DEVELOPERS.md, “What a result says”, of a panel that puts its cups in order. */
import { expect, test } from 'vitest'
import type { RankResult } from '@/lib/tasks/result/rank-result'
import { sayOrder } from '@/lib/tasks/result/say-order'

const cup = (letter: string, ...places: number[]) => ({ cup: letter, places, meanPlace: 2, worth: null })
const pair = (above: string, below: string, liked: number, told: boolean) => ({
  ...{ above, below, liked, likedOther: 12 - liked, told },
  ...{ p: 0.004, pHolm: told ? 0.012 : 0.4 },
})
const differ = { by: 'exact', chiSquared: 10, df: 2, p: 0.004, differ: true } as const
const panel = (more: Partial<RankResult> = {}): RankResult => ({
  ...{ kind: 'rank', tasters: 12, without: 0, later: [], fewest: 7, needed: 40, sought: 75 },
  cups: [cup('B', 11, 1, 0), cup('A', 1, 6, 5), cup('C', 0, 5, 7)],
  first: differ,
  pairs: [pair('B', 'A', 11, true), pair('A', 'C', 7, false), pair('B', 'C', 12, true)],
  best: 'B',
  ...more,
})
const said = (more: Partial<RankResult> = {}) => {
  const { sentence, told } = sayOrder(panel(more), (letter) => `cup ${letter}`)
  return [told, sentence]
}
const none = [pair('B', 'A', 8, false), pair('A', 'C', 7, false), pair('B', 'C', 8, false)]

test.each<[string, Partial<RankResult>, string, string]>([
  ['nobody', { tasters: 0, cups: [], first: null, pairs: [] }, 'nothing', 'Nobody put all the cups in order.'],
  [
    'too few',
    { tasters: 6 },
    'nothing',
    '6 whole orders are too few to tell any two cups apart: with 3 cups it takes at least 7.',
  ],
  [
    'above all and most often first',
    {},
    'better',
    'Most often put first is cup B, by 11 of 12; more put it above every other cup than chance would.',
  ],
  [
    'above all, another as often first',
    { cups: [cup('B', 6, 6, 0), cup('A', 6, 0, 6), cup('C', 0, 6, 6)] },
    'better',
    'More put cup B above every other cup than chance would; first it was put by 6 of 12.',
  ],
  [
    'some pairs',
    { best: null, pairs: [pair('B', 'A', 8, false), pair('A', 'C', 7, false), pair('B', 'C', 12, true)] },
    'better',
    'No cup stands out from all others. Cup B is put above cup C (12 of 12). This panel cannot tell cup B from cup A, nor cup A from cup C.',
  ],
  [
    'the first test alone',
    { best: null, pairs: none },
    'cannot-tell',
    'No cup stands out: the places differ by more than chance, but no two of the cups can be told apart. To tell a cup that 75 of 100 put above another, as planned, it takes 40 whole orders.',
  ],
  [
    'nothing',
    { best: null, pairs: none, first: { ...differ, p: 0.4, differ: false }, tasters: 40 },
    'cannot-tell',
    'No cup stands out: this panel cannot tell cup A, cup B and cup C apart. To tell a cup that 75 of 100 put above another, as planned, this panel was large enough, four times out of five.',
  ],
])('%s', (_, more, told, sentence) => {
  expect(said(more)).toEqual([told, sentence])
})
