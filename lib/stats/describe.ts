import { demand } from '@/lib/base/demand'
import * as simple from 'simple-statistics'

function checkReadings(readings: readonly number[], least: number, what: string): void {
  demand(readings.length >= least, `${what} needs at least ${least} readings, got ${readings.length}`)
  const odd = readings.find((x) => !Number.isFinite(x))
  demand(odd === undefined, `a reading must be a finite number, got ${odd}`)
}

/**
 * What is the mean of some readings? Summed with compensation, so that a long constant lead costs no digits.
 *
 * @param readings  n ≥ 1 finite numbers; gaps are the caller's to remove and to count
 * @throws RangeError  no reading, or one not finite
 *
 * Source   simple-statistics `mean` (Kahan–Babuska sum)
 * Checked  test/reference/simple-statistics-uses.test.ts
 */
export function mean(readings: readonly number[]): number {
  checkReadings(readings, 1, 'a mean')
  return simple.mean([...readings])
}

/**
 * How far do readings scatter about their mean, squared?
 *
 *     s² = Σ (x − x̄)² / (n − 1)
 *
 * @param readings  n ≥ 2 finite numbers
 * @throws RangeError  fewer than two readings, or one not finite
 *
 * Source   simple-statistics `sampleVariance`
 * Checked  test/reference/simple-statistics-uses.test.ts
 */
export function sampleVariance(readings: readonly number[]): number {
  checkReadings(readings, 2, 'a variance')
  return simple.sampleVariance([...readings])
}

/**
 * How far do readings scatter about their mean, in their own unit? The square root of `sampleVariance`.
 *
 * @param readings  n ≥ 2 finite numbers
 * @throws RangeError  fewer than two readings, or one not finite
 *
 * Checked  test/reference/simple-statistics-uses.test.ts
 */
export function sampleDeviation(readings: readonly number[]): number {
  return Math.sqrt(sampleVariance(readings))
}

/**
 * Below which value does a share p of the readings lie?
 *
 *     x₍ₕ₎ interpolated at h = (n − 1) p + 1, type 7 of Hyndman and Fan
 *
 * @param readings  n ≥ 1 finite numbers
 * @param p         0 ≤ p ≤ 1
 * @throws RangeError  no reading, one not finite, or p outside [0, 1]
 *
 * Source   Hyndman and Fan (1996), The American Statistician 50, 361–365; simple-statistics `quantile`
 * Checked  test/reference/simple-statistics-uses.test.ts
 */
export function quantile(readings: readonly number[], p: number): number {
  checkReadings(readings, 1, 'a quantile')
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  return simple.quantile([...readings], p)
}

/**
 * Which value has half of the readings on either side?
 *
 * @param readings  n ≥ 1 finite numbers
 * @throws RangeError  no reading, or one not finite
 *
 * Source   simple-statistics `median`
 * Checked  test/reference/simple-statistics-uses.test.ts
 */
export function median(readings: readonly number[]): number {
  checkReadings(readings, 1, 'a median')
  return simple.median([...readings])
}
