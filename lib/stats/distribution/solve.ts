import { demand } from '@/lib/base/demand'

/** A smooth increasing or decreasing function and its slope at one point. */
export interface Sloped {
  readonly value: number
  readonly slope: number
}

/**
 * Where does a monotone function cross zero? Newton's step, kept inside a bracket that only shrinks.
 *
 * Values of ±Infinity are allowed (a tail that underflows has log −∞): they shrink the bracket by halving.
 *
 * @param f       monotone on the line, with its slope
 * @param start   where to begin, finite
 * @param reach   first half-width tried around the start, > 0; doubled until the ends differ in sign
 * @param within  relative length of the step at which to stop; the default is the last digit
 * @returns       the crossing, to rounding; ±Infinity where the function keeps one sign out to 1e308
 * @throws RangeError  start not finite, or f returns NaN
 *
 * Checked  test/unit/stats/distribution/solve.test.ts
 */
export function solveMonotone(f: (x: number) => Sloped, start: number, reach = 1, within = 2e-16): number {
  demand(Number.isFinite(start), `the search must start at a finite point, got ${start}`)
  const at = (x: number) => {
    const y = f(x)
    demand(!Number.isNaN(y.value), `the function searched is not a number at ${x}`)
    return y
  }
  let x = start
  let y = at(x)
  if (y.value === 0) return x

  const rising = y.slope > 0 || (!(y.slope < 0) && at(start + reach).value > at(start - reach).value)
  const signHere = Math.sign(y.value)
  const toward = signHere > 0 === rising ? -1 : 1
  let inner = x
  let outer = x
  for (let step = reach; ; step *= 2) {
    outer = x + toward * step
    if (!Number.isFinite(outer)) return toward * Infinity
    const there = at(outer)
    if (there.value === 0) return outer
    if (Math.sign(there.value) !== signHere) break
    inner = outer
  }

  let low = Math.min(inner, outer)
  let high = Math.max(inner, outer)
  if (x < low || x > high) {
    x = (low + high) / 2
    y = at(x)
  }
  for (let turn = 0; turn < 300; turn++) {
    if (y.value === 0) return x
    if (y.value > 0 === rising) high = x
    else low = x
    const newton = x - y.value / y.slope
    // tested before the bracket: at the crossing the step is rounding, and may point outside
    if (Math.abs(newton - x) <= within * Math.abs(newton)) return newton
    const next = newton > low && newton < high ? newton : (low + high) / 2
    if (next === x || high - low <= 2 * within * Math.max(Math.abs(low), Math.abs(high))) return next
    x = next
    y = at(x)
  }
  return x
}

/**
 * Where does a rising function cross zero between two ends? False position with halved ends (Illinois), no slope needed.
 *
 * @param f       rising; below or at 0 at `from`, above or at 0 at `to`
 * @param from    lower end
 * @param to      upper end
 * @param within  width of the bracket, relative to its larger end, at which to stop
 * @throws RangeError  the ends do not enclose a crossing
 *
 * Source   Dowell and Jarratt (1971), BIT 11, 168–174
 * Checked  test/unit/stats/distribution/solve.test.ts
 */
export function solveBetween(f: (x: number) => number, from: number, to: number, within = 1e-14): number {
  let [low, high, atLow, atHigh] = [from, to, f(from), f(to)]
  demand(atLow <= 0 && atHigh >= 0, `no crossing between ${from} (${atLow}) and ${to} (${atHigh})`)
  let side = 0
  for (let turn = 0; turn < 200; turn++) {
    if (atLow === 0) return low
    if (atHigh === 0) return high
    if (high - low <= within * Math.max(Math.abs(low), Math.abs(high))) break
    const secant = (low * atHigh - high * atLow) / (atHigh - atLow)
    const x = secant > low && secant < high ? secant : (low + high) / 2
    const at = f(x)
    if (at < 0) {
      if (x - low <= within * Math.abs(x) && side === -1) return x
      low = x
      atLow = at
      if (side === -1) atHigh /= 2
      side = -1
    } else {
      if (high - x <= within * Math.abs(x) && side === 1) return x
      high = x
      atHigh = at
      if (side === 1) atLow /= 2
      side = 1
    }
  }
  return (low + high) / 2
}
