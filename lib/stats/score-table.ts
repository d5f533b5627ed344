import { demand } from '@/lib/base/demand'
import { byLabel } from './label-order'
import { UnusableReadings } from './outcome'
import { servingOrder } from './serving-order'

/** One score of one taster for one cup; null where the cell was left empty. */
export interface AcceptanceRow {
  readonly taster: string
  readonly cup: string
  readonly score: number | null
  readonly replicate?: string | null
  readonly position?: number | null
  readonly session?: string | null
}

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
 * Checked  test/unit/stats/score-table.test.ts
 */
export function scoreTable(rows: readonly AcceptanceRow[], withSession: boolean): ScoreTable {
  const used: AcceptanceRow[] = []
  let missing = 0
  let withoutSession = 0
  for (const row of rows) {
    if (row.score === null) missing++
    else if (withSession && !row.session) withoutSession++
    else used.push(row)
    demand(row.score === null || Number.isFinite(row.score), `a score must be a finite number, got ${row.score}`)
    const position = row.position ?? 0
    demand(Number.isFinite(position), `a position must be a finite number, got ${position}`)
  }
  if (used.length === 0) throw new UnusableReadings(`no cup has a score: ${rows.length} rows, ${missing} of them empty`)

  const cups = labels(used.map((row) => row.cup))
  const sessions = withSession ? labels(used.map((row) => row.session ?? '')) : []
  const positions = [...new Set(used.flatMap((row) => row.position ?? []))].sort((a, b) => a - b)
  const cupAt = places(cups)
  const sessionAt = places(sessions)
  const positionAt = new Map(positions.map((position, i) => [position, i]))
  const order = positions.length > 0 ? servingOrder(rows, cupAt, withSession) : { previous: null, unclear: false }

  const scores = Float64Array.from(used, (row) => row.score ?? 0).sort()
  const centre = scores[Math.floor((scores.length - 1) / 2)] ?? 0
  const grain = Number.EPSILON * Math.max(Math.abs(scores[0] ?? 0), Math.abs(scores.at(-1) ?? 0))

  const byTaster = new Map<string, Entry[]>()
  for (const row of used) {
    const entry = {
      cup: cupAt.get(row.cup) ?? 0,
      session: withSession ? (sessionAt.get(row.session ?? '') ?? 0) : 0,
      position: positionAt.get(row.position ?? NaN) ?? -1,
      previous: order.previous?.get(row) ?? -2,
      score: (row.score ?? 0) - centre,
    }
    const own = byTaster.get(row.taster)
    if (own) own.push(entry)
    else byTaster.set(row.taster, [entry])
  }
  const tasters = [...byTaster]
  for (const [, own] of tasters) own.sort(byEntry)
  tasters.sort(([, a], [, b]) => byContent(a, b))

  const n = used.length
  const table = {
    tasterOf: new Int32Array(n),
    cupOf: new Int32Array(n),
    sessionOf: new Int32Array(n),
    positionOf: new Int32Array(n),
    previousOf: new Int32Array(n),
    score: new Float64Array(n),
  }
  let place = 0
  tasters.forEach(([, own], taster) => {
    for (const entry of own) {
      table.tasterOf[place] = taster
      table.cupOf[place] = entry.cup
      table.sessionOf[place] = entry.session
      table.positionOf[place] = entry.position
      table.previousOf[place] = entry.previous
      table.score[place] = entry.score
      place++
    }
  })
  return {
    ...table,
    centre,
    grain,
    tasters: tasters.map(([taster]) => taster),
    cups,
    sessions,
    positions,
    orderUnclear: order.unclear,
    missing,
    withoutSession,
    neverScored: labels(rows.map((row) => row.cup)).filter((cup) => !cupAt.has(cup)),
  }
}

interface Entry {
  readonly cup: number
  readonly session: number
  readonly position: number
  readonly previous: number
  readonly score: number
}

function byEntry(a: Entry, b: Entry): number {
  return (
    a.cup - b.cup || a.session - b.session || a.score - b.score || a.position - b.position || a.previous - b.previous
  )
}

function byContent(a: readonly Entry[], b: readonly Entry[]): number {
  const shared = Math.min(a.length, b.length)
  for (let i = 0; i < shared; i++) {
    const [left, right] = [a[i], b[i]]
    const order = left && right ? byEntry(left, right) : 0
    if (order !== 0) return order
  }
  return a.length - b.length
}

function labels(all: readonly string[]): readonly string[] {
  return [...new Set(all)].sort(byLabel)
}

function places(sorted: readonly string[]): ReadonlyMap<string, number> {
  return new Map(sorted.map((label, i) => [label, i]))
}
