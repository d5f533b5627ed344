import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { MOST_KEPT } from '@/lib/forms/number-fields'

export type AmountRefusal = 'too-little' | 'too-much'

/** Grams above zero as they are kept; refused where they would be kept as nothing, or are more than a column holds. */
export function milligramsOf(grams: number): Result<number, AmountRefusal> {
  const mg = Math.round(grams * 1000)
  return mg < 1 ? no('too-little') : mg > MOST_KEPT ? no('too-much') : ok(mg)
}
