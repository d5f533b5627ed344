import { expect, test } from 'vitest'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { completeRows, cupColumn, tasterDifferences, tasterMeans } from '@/lib/stats/liking/taster-means'

const table = scoreTable(
  [
    { taster: 't', cup: 'A', score: 4 },
    { taster: 't', cup: 'A', score: 6 },
    { taster: 't', cup: 'B', score: 8 },
    { taster: 'u', cup: 'A', score: 0.3 },
    { taster: 'u', cup: 'B', score: 0.1 + 0.2 },
    { taster: 'v', cup: 'B', score: 7 },
  ],
  false,
)
const means = tasterMeans(table)

test('repeats are averaged and counted, gaps kept', () => {
  expect(means).toMatchObject({ tasters: 3, cups: 2, repeated: 1, complete: false })
  expect([...cupColumn(means, 0)].map((x) => Math.round((x + table.centre) * 10) / 10).sort()).toEqual([0.3, 5])
  expect(completeRows(means)).toHaveLength(2)
})

test('differences are of tasters who scored both, and rounding is no difference', () => {
  const differences = [...tasterDifferences(means, 0, 1, table.grain)].sort()
  expect(differences).toHaveLength(2)
  expect(differences).toContain(0)
})
