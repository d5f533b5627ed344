/** One measured number beside its target. */
export interface Measured {
  readonly part: string
  readonly what: string
  readonly measured: number | null
  readonly unit: string
  /** the target as a sentence: "below 30"; null where there is none */
  readonly target: string | null
  readonly met: boolean | null
  readonly note?: string
}

export function below(
  part: string,
  what: string,
  measured: number,
  unit: string,
  limit: number,
  note?: string,
): Measured {
  const rounded = Math.round(measured * 1000) / 1000
  return {
    part,
    what,
    measured: rounded,
    unit,
    target: `below ${limit}`,
    met: measured < limit,
    ...(note ? { note } : {}),
  }
}

export function plainly(part: string, what: string, measured: number | null, unit: string, note?: string): Measured {
  return {
    part,
    what,
    measured: measured === null ? null : Math.round(measured * 1000) / 1000,
    unit,
    target: null,
    met: null,
    ...(note ? { note } : {}),
  }
}

/** The middle of sorted times, and the time that 95 of 100 stay below. */
export function middleAndTail(times: readonly number[]): { readonly median: number; readonly p95: number } {
  const sorted = times.toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN
  return { median: at(0.5), p95: at(0.95) }
}

export function millisecondsOf(act: () => unknown): number {
  const began = performance.now()
  act()
  return performance.now() - began
}

/** The quickest of a few runs, after a few to warm up: what the code takes when nothing else has the core. */
export function warmed(act: () => unknown, warmUps: number, runs: number): number {
  for (let run = 0; run < warmUps; run++) act()
  return Math.min(...Array.from({ length: runs }, () => millisecondsOf(act)))
}
