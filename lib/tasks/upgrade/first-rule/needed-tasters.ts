import 'server-only'
import { noncentralStudentLower, noncentralStudentUpper } from '@/lib/stats/distribution/noncentral-student'
import { studentQuantile } from '@/lib/stats/distribution/student'
import { smallestGrowing } from '@/lib/stats/plan/power'

/**
 * How many tasters did the first rule ask for? It took (n − 1)(K − 1) degrees of freedom, which promises more than a test on the
 * tasters' own differences delivers; kept for the sentences that rested on it.
 */
export function tastersByFirstRule(question: {
  readonly sd: number
  readonly difference: number
  readonly cups: number
  readonly alpha: number
  readonly control: boolean
  readonly power: number
}): number {
  const { sd, difference, cups, alpha, control, power } = question
  const comparisons = control ? cups - 1 : (cups * (cups - 1)) / 2
  const powerAt = (n: number) => {
    const df = (n - 1) * (cups - 1)
    const t = studentQuantile(1 - alpha / comparisons / 2, df)
    const shift = Math.abs(difference) / (sd * Math.sqrt(2 / n))
    return Math.min(1, noncentralStudentUpper(t, df, shift) + noncentralStudentLower(-t, df, shift))
  }
  return smallestGrowing(powerAt, power, 2)
}
