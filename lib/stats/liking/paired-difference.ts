import { lost } from '@/lib/base/lost'
import type { PairedDifference } from './acceptance-answer'
import { around, studentReach } from '../model/contrast'
import { studentTwoSided } from '../distribution/student'

/**
 * How much more do the same tasters like one cup than another, judged by their own differences?
 *
 *     d̄ ± t(n − 1, (1 + level)/2) · s_d / √n
 *
 * Unlike a pooled residual this stays right when a cup divides its tasters.
 *
 * @param differences  one per taster who scored both, over means of repeats
 * @param grain        rounding unit of the scores; a spread of that size counts as none
 * @returns nulls where there is no taster, one taster, or no spread between them
 *
 * Source   Student (1908), Biometrika 6(1), 1–25.
 * Checked  test/reference/student-1908-sleep.test.ts
 */
export function pairedDifference(differences: Float64Array, level: number, grain: number): PairedDifference {
  const n = differences.length
  const nothing = { se: null, df: null, t: null, p: null, interval: null }
  if (n === 0) return { n, difference: null, ...nothing }
  const first = differences[0] ?? lost()
  let shift = 0
  for (const d of differences) shift += d - first
  const difference = first + shift / n
  if (n === 1) return { n, difference, ...nothing }

  let squares = 0
  for (const d of differences) squares += (d - difference) ** 2
  const df = n - 1
  const sd = Math.sqrt(squares / df)
  if (sd <= 16 * grain) return { n, difference, ...nothing, se: 0, df }
  const se = sd / Math.sqrt(n)
  const t = difference / se
  return {
    n,
    difference,
    se,
    df,
    t,
    p: studentTwoSided(t, df),
    interval: around(difference, se, studentReach(level, df)),
  }
}
