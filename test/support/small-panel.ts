import { scoreDesign } from '@/lib/stats/liking/score-design'
import { scoreTable } from '@/lib/stats/liking/score-table'

/** Four tasters, three cups, every cell filled; tasters differ, so that their variance is positive. */
const SCORES: readonly (readonly number[])[] = Object.freeze([
  [3, 4, 6],
  [5, 7, 7],
  [6, 8, 9],
  [2, 5, 4],
])

/** The panel with its two-way analysis of variance worked out by the textbook's sums of squares. */
export function smallPanel() {
  const rows = SCORES.flatMap((row, taster) =>
    row.map((score, cup) => ({ taster: `t${taster}`, cup: `c${cup}`, score, position: ((cup + taster) % 3) + 1 })),
  )
  const table = scoreTable(rows, false)
  const [n, k] = [4, 3]
  const all = SCORES.flat()
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b) / values.length
  const grand = mean(all)
  const squares = (values: readonly number[]) => values.reduce((a, x) => a + (x - grand) ** 2, 0)
  const tasterMeans = SCORES.map(mean)
  const cupMeans = [0, 1, 2].map((cup) => mean(SCORES.map((row) => row[cup] ?? 0)))
  const msTaster = (k * squares(tasterMeans)) / (n - 1)
  const msCup = (n * squares(cupMeans)) / (k - 1)
  const msError = (squares(all) - k * squares(tasterMeans) - n * squares(cupMeans)) / ((n - 1) * (k - 1))
  return {
    rows,
    table,
    design: scoreDesign(table, { position: false, carryOver: false }),
    scores: SCORES,
    cupMeans,
    taster: (msTaster - msError) / k,
    residual: msError,
    F: msCup / msError,
    df2: (n - 1) * (k - 1),
  }
}
