import { lost } from '@/lib/base/lost'
import { byLabel } from '../label-order'
import { UnusableReadings } from '../outcome'
import type { AcceptanceRow } from './acceptance-row'
import { servingOrder } from './serving-order'

/**
 * Scores that exist, one per place in each array, sorted by taster, cup, session and score. Tasters stand in the order
 * of what they scored, not of their names, so that neither names nor the order of rows reach a last digit.
 */
export interface ScoreTable {
  readonly tasterOf: Int32Array
  readonly cupOf: Int32Array
  readonly sessionOf: Int32Array
  /** place in `positions`, −1 where unknown */
  readonly positionOf: Int32Array
  /** the cup tasted before; −1 for the first, −2 where unknown */
  readonly previousOf: Int32Array
  /** less `centre` */
  readonly score: Float64Array
  readonly centre: number
  /** the rounding unit of the largest score */
  readonly grain: number
  readonly tasters: readonly string[]
  readonly cups: readonly string[]
  readonly sessions: readonly string[]
  readonly positions: readonly number[]
  /** positions that leave it open which cup came before which */
  readonly orderUnclear: boolean
  readonly missing: number
  readonly withoutSession: number
  readonly neverScored: readonly string[]
}

/**
 * Which scores are there to analyse, by taster, cup, session and position?
 *
 * @param rows         in any order; empty scores are counted, never taken as zero
 * @param withSession  true: rows without a session are left out and counted
 * @throws RangeError  a score or position that is not finite
 * @throws UnusableReadings  no score at all
 *
 * Checked  test/unit/stats/liking/score-table.test.ts
 */
export function scoreTable(rows: readonly AcceptanceRow[], withSession: boolean): ScoreTable {
  const used: AcceptanceRow[] = []
  let missing = 0
  let withoutSession = 0
  const seenPositions = new Set<number>()
  for (const row of rows) {
    const { score, position } = row
    if (score === null) missing++
    else if (withSession && !row.session) withoutSession++
    else {
      used.push(row)
      if (typeof position === 'number') seenPositions.add(position)
    }
    if (score !== null && !Number.isFinite(score)) throw new RangeError(`a score must be a finite number, got ${score}`)
    if (position !== null && position !== undefined && !Number.isFinite(position)) {
      throw new RangeError(`a position must be a finite number, got ${position}`)
    }
  }
  if (used.length === 0) throw new UnusableReadings(`no cup has a score: ${rows.length} rows, ${missing} of them empty`)

  const cups = levels(used, (row) => row.cup)
  const sessions = withSession ? levels(used, (row) => row.session ?? '') : []
  const positions = [...seenPositions].sort((a, b) => a - b)
  const cupAt = places(cups)
  const order = positions.length > 0 ? servingOrder(rows, cupAt, withSession) : { previous: null, unclear: false }

  const sorted = new Float64Array(used.length)
  for (let row = 0; row < sorted.length; row++) sorted[row] = used[row]?.score ?? lost()
  sorted.sort()
  const centre = sorted[Math.floor((sorted.length - 1) / 2)] ?? lost()
  const grain = Number.EPSILON * Math.max(Math.abs(sorted[0] ?? lost()), Math.abs(sorted.at(-1) ?? lost()))

  const n = used.length
  const raw = blankColumns(n)
  const tasters: string[] = []
  const tasterAt = new Map<string, number>()
  const sessionAt = places(sessions)
  const positionAt = new Map(positions.map((position, i) => [position, i]))
  for (let row = 0; row < n; row++) {
    const reading = used[row]
    if (!reading) continue
    let taster = tasterAt.get(reading.taster)
    if (taster === undefined) {
      taster = tasters.push(reading.taster) - 1
      tasterAt.set(reading.taster, taster)
    }
    raw.tasterOf[row] = taster
    raw.cupOf[row] = cupAt.get(reading.cup) ?? lost()
    raw.sessionOf[row] = withSession ? (sessionAt.get(reading.session ?? '') ?? lost()) : 0
    raw.positionOf[row] = positionAt.get(reading.position ?? NaN) ?? -1
    raw.previousOf[row] = order.previous?.get(reading) ?? -2
    raw.score[row] = (reading.score ?? lost()) - centre
  }

  const sequence = contentOrder(raw, tasters.length)
  const table = blankColumns(n)
  const names: string[] = []
  let last = -1
  for (let place = 0; place < n; place++) {
    const row = sequence[place] ?? lost()
    const taster = raw.tasterOf[row] ?? lost()
    if (taster !== last) names.push(tasters[taster] ?? lost())
    last = taster
    table.tasterOf[place] = names.length - 1
    table.cupOf[place] = raw.cupOf[row] ?? lost()
    table.sessionOf[place] = raw.sessionOf[row] ?? lost()
    table.positionOf[place] = raw.positionOf[row] ?? lost()
    table.previousOf[place] = raw.previousOf[row] ?? lost()
    table.score[place] = raw.score[row] ?? lost()
  }
  const poured = used.length < rows.length ? levels(rows, (row) => row.cup) : cups
  return {
    ...table,
    centre,
    grain,
    tasters: names,
    cups,
    sessions,
    positions,
    orderUnclear: order.unclear,
    missing,
    withoutSession,
    neverScored: poured.filter((cup) => !cupAt.has(cup)),
  }
}

interface Columns {
  readonly tasterOf: Int32Array
  readonly cupOf: Int32Array
  readonly sessionOf: Int32Array
  readonly positionOf: Int32Array
  readonly previousOf: Int32Array
  readonly score: Float64Array
}

function blankColumns(n: number): Columns {
  return {
    tasterOf: new Int32Array(n),
    cupOf: new Int32Array(n),
    sessionOf: new Int32Array(n),
    positionOf: new Int32Array(n),
    previousOf: new Int32Array(n),
    score: new Float64Array(n),
  }
}

/** The rows, each taster's together in the order of their content, and the tasters by theirs. */
function contentOrder(columns: Columns, tasters: number): Int32Array {
  const { tasterOf, cupOf, sessionOf, positionOf, previousOf, score } = columns
  const compare = (a: number, b: number): number =>
    (cupOf[a] ?? lost()) - (cupOf[b] ?? lost()) ||
    (sessionOf[a] ?? lost()) - (sessionOf[b] ?? lost()) ||
    (score[a] ?? lost()) - (score[b] ?? lost()) ||
    (positionOf[a] ?? lost()) - (positionOf[b] ?? lost()) ||
    (previousOf[a] ?? lost()) - (previousOf[b] ?? lost())

  const { starts, rows } = gathered(tasterOf, tasters)
  // One number drawn from a taster's content decides nearly every comparison; equal numbers are compared in full.
  const mark = new Float64Array(tasters)
  for (let taster = 0; taster < tasters; taster++) {
    const [from = 0, to = 0] = [starts[taster], starts[taster + 1]]
    if (to - from > 100) rows.subarray(from, to).sort(compare)
    else insertionSort(rows, from, to, compare)
    let drawn = 0
    for (let i = from; i < to; i++) {
      const row = rows[i] ?? lost()
      drawn =
        (drawn * 31.7 + (cupOf[row] ?? lost()) * 1.3 + (sessionOf[row] ?? lost()) * 7.7 + (score[row] ?? lost())) % 1e6
    }
    mark[taster] = drawn
  }

  const order = new Int32Array(tasters)
  for (let taster = 0; taster < tasters; taster++) order[taster] = taster
  order.sort((a, b) => {
    const first = (mark[a] ?? lost()) - (mark[b] ?? lost())
    if (first !== 0) return first
    const [left = 0, right = 0] = [starts[a], starts[b]]
    const [leftSize, rightSize] = [(starts[a + 1] ?? lost()) - left, (starts[b + 1] ?? lost()) - right]
    for (let i = 0; i < Math.min(leftSize, rightSize); i++) {
      const next = compare(rows[left + i] ?? lost(), rows[right + i] ?? lost())
      if (next !== 0) return next
    }
    return leftSize - rightSize
  })

  const sequence = new Int32Array(rows.length)
  let place = 0
  for (const taster of order) {
    for (let i = starts[taster] ?? lost(); i < (starts[taster + 1] ?? lost()); i++)
      sequence[place++] = rows[i] ?? lost()
  }
  return sequence
}

/** Row numbers with each taster's together; a taster's begin at starts[taster]. */
function gathered(tasterOf: Int32Array, tasters: number): { starts: Int32Array; rows: Int32Array } {
  const starts = new Int32Array(tasters + 1)
  for (const taster of tasterOf) starts[taster + 1] = (starts[taster + 1] ?? lost()) + 1
  for (let taster = 0; taster < tasters; taster++)
    starts[taster + 1] = (starts[taster + 1] ?? lost()) + (starts[taster] ?? lost())
  const next = Int32Array.from(starts)
  const rows = new Int32Array(tasterOf.length)
  for (let row = 0; row < tasterOf.length; row++) {
    const taster = tasterOf[row] ?? lost()
    const at = next[taster] ?? lost()
    rows[at] = row
    next[taster] = at + 1
  }
  return { starts, rows }
}

/** The quickest for the handful of scores that a taster usually has. */
function insertionSort(rows: Int32Array, from: number, to: number, compare: (a: number, b: number) => number): void {
  for (let i = from + 1; i < to; i++) {
    const row = rows[i] ?? lost()
    let j = i - 1
    while (j >= from && compare(rows[j] ?? lost(), row) > 0) {
      rows[j + 1] = rows[j] ?? lost()
      j--
    }
    rows[j + 1] = row
  }
}

/** Every label once, in label order. */
function levels(rows: readonly AcceptanceRow[], labelOf: (row: AcceptanceRow) => string): readonly string[] {
  const seen = new Set<string>()
  for (const row of rows) seen.add(labelOf(row))
  return [...seen].sort(byLabel)
}

function places(sorted: readonly string[]): ReadonlyMap<string, number> {
  return new Map(sorted.map((label, i) => [label, i]))
}
