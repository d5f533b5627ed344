/** From where to where a plot reaches, and which values are written at its edge. */
export interface Scale {
  readonly low: number
  readonly high: number
  readonly ticks: readonly number[]
}

/** Where a value stands on its scale, from the low end to the high one; outside it, at the end. */
export function percentOf(value: number, { low, high }: Scale): number {
  return high > low ? 100 * Math.min(1, Math.max(0, (value - low) / (high - low))) : 50
}

/**
 * A scale that holds all these values and begins and ends at a round one.
 *
 * @param values  finite, at least one
 * @param about   how many steps are wanted
 * @returns       steps of 1, 2 or 5 times a power of ten
 */
export function scaleOf(values: readonly number[], about = 5): Scale {
  const [least, most] = [Math.min(...values), Math.max(...values)]
  const size = Math.max(1, Math.abs(least), Math.abs(most))
  // Values that nobody could tell apart on paper share one step, and no power of ten is too small to count with.
  const span = most - least > 1e-9 * size ? most - least : 0.2 * size
  const power = 10 ** Math.floor(Math.log10(span / about))
  const step = ([1, 2, 5].find((times) => span / (times * power) <= about) ?? 10) * power
  const [from, to] = [Math.floor(least / step), Math.ceil(most / step)]
  const last = to > from ? to : from + 1
  return {
    low: from * step,
    high: last * step,
    ticks: Array.from({ length: last - from + 1 }, (_, i) => (from + i) * step),
  }
}

/** Whole points on both sides of zero, far enough for all these values; every second one written where there are many. */
export function aroundZero(values: readonly number[]): Scale {
  const most = Math.ceil(Math.max(1, ...values.map(Math.abs)))
  const all = Array.from({ length: 2 * most + 1 }, (_, i) => i - most)
  return { low: -most, high: most, ticks: most > 5 ? all.filter((tick) => (tick + most) % 2 === 0) : all }
}

/** The nine points of liking. */
export const NINE: Scale = { low: 1, high: 9, ticks: [1, 2, 3, 4, 5, 6, 7, 8, 9] }

/** Shares in a hundred. */
export const HUNDRED: Scale = { low: 0, high: 100, ticks: [0, 25, 50, 75, 100] }
