import { lost } from '@/lib/base/lost'
import type { DesignRows } from './variance-strata'

/** What tasters who met the same cups, equally often and in the same sessions, have in common. */
export interface TasterPattern {
  readonly tasters: number
  /** cells: scores of one design row and one cup */
  readonly size: number
  /** size × columns: each cell's design row, times √m */
  readonly rows: Float64Array
  /** √m of each cell, m its scores */
  readonly roots: Float64Array
  readonly cupOf: Int32Array
}

/** The tasters by pattern, their scores reduced to √m · the mean of each cell. */
export interface TasterPatterns {
  readonly patterns: readonly TasterPattern[]
  readonly patternOf: Int32Array
  /** where a taster's cells begin in `scores`, one entry more than there are tasters */
  readonly starts: Int32Array
  readonly scores: Float64Array
}

/**
 * Which tasters met the same things, so that what depends on the design alone need be computed only once for them?
 *
 * Scores of one taster with the same design row and cup differ only by chance: √m times their mean holds all that they
 * say about effects, and turning them so leaves every quadratic form of effects and covariances as it was.
 *
 * @param design  rows sorted by taster
 *
 * Source   Searle, Casella and McCulloch (1992), Variance Components, chapter 3 (cell means are sufficient).
 * Checked  test/unit/stats/model/taster-patterns.test.ts
 * Cost     linear in the scores
 */
export function tasterPatterns({ rows, width, tasterOf, cupOf }: DesignRows): TasterPatterns {
  const p = width - 1
  const kinds = rowKinds(rows, width, cupOf)
  const root: Node = { next: new Map(), pattern: -1 }
  const patterns: { tasters: number; size: number; rows: Float64Array; roots: Float64Array; cupOf: Int32Array }[] = []
  const patternOf: number[] = []
  const starts: number[] = [0]
  const scores = new Float64Array(tasterOf.length)
  let filled = 0

  for (let from = 0; from < tasterOf.length;) {
    let to = from
    const cells: { kind: number; row: number; m: number; sum: number }[] = []
    for (; to < tasterOf.length && tasterOf[to] === tasterOf[from]; to++) {
      const kind = kinds[to] ?? lost()
      const score = rows[to * width + p] ?? lost()
      const known = cells.find((cell) => cell.kind === kind)
      if (known) {
        known.m++
        known.sum += score
      } else cells.push({ kind, row: to, m: 1, sum: score })
    }
    cells.sort((a, b) => a.kind - b.kind)

    let node = root
    for (const { kind, m } of cells) node = step(step(node, kind), m)
    if (node.pattern < 0) {
      const shared = new Float64Array(cells.length * p)
      cells.forEach(({ row, m }, i) => {
        for (let j = 0; j < p; j++) shared[i * p + j] = Math.sqrt(m) * (rows[row * width + j] ?? lost())
      })
      node.pattern =
        patterns.push({
          tasters: 0,
          size: cells.length,
          rows: shared,
          roots: Float64Array.from(cells, ({ m }) => Math.sqrt(m)),
          cupOf: Int32Array.from(cells, ({ row }) => cupOf[row] ?? lost()),
        }) - 1
    }
    const own = patterns[node.pattern]
    if (own) own.tasters++
    patternOf.push(node.pattern)
    for (const { m, sum } of cells) scores[filled++] = m === 1 ? sum : sum / Math.sqrt(m)
    starts.push(filled)
    from = to
  }
  return {
    patterns,
    patternOf: Int32Array.from(patternOf),
    starts: Int32Array.from(starts),
    scores: scores.slice(0, filled),
  }
}

/** A tree of what a taster met, one branch per kind of cell and per number of scores in it. */
interface Node {
  readonly next: Map<number, Node>
  pattern: number
}

function step(node: Node, key: number): Node {
  const known = node.next.get(key)
  if (known) return known
  const made: Node = { next: new Map(), pattern: -1 }
  node.next.set(key, made)
  return made
}

/** A number for each different pair of design row and cup, by first appearance. */
function rowKinds(rows: Float64Array, width: number, cupOf: Int32Array): Int32Array {
  const kinds = new Int32Array(cupOf.length)
  const first: number[] = []
  const byMark = new Map<number, number[]>()
  for (let row = 0; row < cupOf.length; row++) {
    // One number decides nearly always which rows can be equal; equal numbers are compared in full.
    let mark = cupOf[row] ?? lost()
    for (let j = 0; j < width - 1; j++) mark = mark * 1.6180339887 + (rows[row * width + j] ?? lost())
    const alike = byMark.get(mark)
    let kind = alike?.find((one) => sameRow(rows, width, cupOf, first[one] ?? lost(), row))
    if (kind === undefined) {
      kind = first.push(row) - 1
      if (alike) alike.push(kind)
      else byMark.set(mark, [kind])
    }
    kinds[row] = kind
  }
  return kinds
}

function sameRow(rows: Float64Array, width: number, cupOf: Int32Array, a: number, b: number): boolean {
  if (cupOf[a] !== cupOf[b]) return false
  for (let j = 0; j < width - 1; j++) if (rows[a * width + j] !== rows[b * width + j]) return false
  return true
}
