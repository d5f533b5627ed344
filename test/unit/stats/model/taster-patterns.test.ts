import { expect, test } from 'vitest'
import { scoreDesign } from '@/lib/stats/liking/score-design'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { tasterPatterns } from '@/lib/stats/model/taster-patterns'

const plain = { position: false, carryOver: false }
const row = (taster: string, cup: string, score: number) => ({ taster, cup, score })

test('tasters who met the same cups share one pattern, whatever they scored', () => {
  const table = scoreTable(
    [row('x', 'A', 1), row('x', 'B', 2), row('y', 'B', 9), row('y', 'A', 4), row('z', 'B', 3), row('z', 'C', 3)],
    false,
  )
  const { patterns, patternOf, starts } = tasterPatterns(scoreDesign(table, plain))
  expect(patterns.map(({ tasters, size }) => [tasters, size]).sort()).toEqual([
    [1, 2],
    [2, 2],
  ])
  expect(patternOf.length).toBe(3)
  expect([...starts]).toEqual([0, 2, 4, 6])
})

test('repeats become one cell: √m times their mean', () => {
  const table = scoreTable([row('x', 'A', 1), row('x', 'A', 4), row('x', 'B', 2)], false)
  const { patterns, scores } = tasterPatterns(scoreDesign(table, plain))
  const [own] = patterns
  expect(own?.size).toBe(2)
  expect([...(own?.roots ?? [])]).toEqual([Math.SQRT2, 1])
  // less the middle score 2: −1 and 2, so (−1 + 2)/√2; and 0
  expect(scores[0]).toBeCloseTo(1 / Math.SQRT2, 14)
  expect(scores[1]).toBe(0)
})

test('a cup scored once and a cup scored twice are two patterns', () => {
  const table = scoreTable(
    [row('x', 'A', 1), row('x', 'A', 4), row('x', 'B', 2), row('y', 'A', 1), row('y', 'B', 2)],
    false,
  )
  expect(tasterPatterns(scoreDesign(table, plain)).patterns.length).toBe(2)
})
