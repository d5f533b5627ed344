import type { Part } from './parts'

/** One measured number beside its target. */
export interface Measured {
  readonly part: Part
  readonly what: string
  /** null where it could not be measured here; the note says why */
  readonly measured: number | null
  readonly unit: string
  /** "below 30"; null where nothing is promised */
  readonly target: string | null
  readonly met: boolean | null
  readonly note?: string
}

type Named = Pick<Measured, 'part' | 'what' | 'unit' | 'note'>

export function below(named: Named, measured: number, limit: number): Measured {
  return { ...written(named, measured), target: `below ${limit}`, met: measured < limit }
}

export function plainly(named: Named, measured: number | null): Measured {
  return { ...written(named, measured), target: null, met: null }
}

/** A number that must come out exactly. */
export function exactly(named: Named, measured: number, wanted: number): Measured {
  return { ...written(named, measured), target: `exactly ${wanted}`, met: measured === wanted }
}

/** A promise that cannot be looked at on this machine is not met, and not broken either. */
export function notHere(named: Named, limit: number): Measured {
  return { ...written(named, null), target: `below ${limit}`, met: null }
}

function written({ part, what, unit, note }: Named, measured: number | null) {
  const rounded = measured === null ? null : Math.round(measured * 1000) / 1000
  return { part, what, measured: rounded, unit, ...(note === undefined ? {} : { note }) }
}

export interface Spread {
  readonly least: number
  readonly median: number
  readonly p95: number
  readonly p99: number
  readonly most: number
}

/** The least of some times, their median, the smallest that at least 95 (99) of 100 do not pass, and the greatest. */
export function spreadOf(times: readonly number[]): Spread {
  const sorted = times.toSorted((a, b) => a - b)
  const at = (place: number) => sorted[place] ?? Number.NaN
  const half = Math.floor(sorted.length / 2)
  return {
    least: at(0),
    median: sorted.length % 2 ? at(half) : (at(half - 1) + at(half)) / 2,
    p95: at(Math.ceil(0.95 * sorted.length) - 1),
    p99: at(Math.ceil(0.99 * sorted.length) - 1),
    most: at(sorted.length - 1),
  }
}

export function sayTail({ p95 }: Spread): string {
  return `p95 ${p95.toFixed(1)} ms`
}

export function millisecondsFrom(began: number): number {
  return performance.now() - began
}

export function millisecondsOf(act: () => unknown): number {
  const began = performance.now()
  act()
  return millisecondsFrom(began)
}

/** Times of some runs, after a few to warm up. */
export function timed(act: () => unknown, warmUps: number, runs: number): Spread {
  for (let run = 0; run < warmUps; run++) act()
  return spreadOf(Array.from({ length: runs }, () => millisecondsOf(act)))
}
