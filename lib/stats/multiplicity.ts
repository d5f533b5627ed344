import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'

/**
 * What do several p values become when any false alarm among them counts as one?
 *
 *     p₍₁₎ ≤ … ≤ p₍ₘ₎;   adjusted₍ᵢ₎ = max_{j ≤ i} min(1, (m − j + 1) p₍ⱼ₎)
 *
 * @param p  m numbers in [0, 1], in any order
 * @returns  adjusted values in the order given
 * @throws RangeError  a p outside [0, 1]
 *
 * Source   Holm (1979), Scand. J. Stat. 6, 65–70
 * Checked  test/reference/holm-1979-adjusted.test.ts
 */
export function holm(p: readonly number[]): number[] {
  for (const value of p) demand(value >= 0 && value <= 1, `a p value must lie between 0 and 1, got ${value}`)
  const order = p.map((_, i) => i).sort((a, b) => (p[a] ?? lost()) - (p[b] ?? lost()))
  const adjusted = new Array<number>(p.length)
  let running = 0
  order.forEach((at, rank) => {
    running = Math.max(running, Math.min(1, (p.length - rank) * (p[at] ?? lost())))
    adjusted[at] = running
  })
  return adjusted
}

/**
 * The same where some p values could not be had: those stay null and are not counted among the m.
 *
 * @param p  numbers in [0, 1] or null
 * @throws RangeError  a p outside [0, 1]
 *
 * Source   Holm (1979)
 * Checked  test/unit/stats/multiplicity.test.ts
 */
export function holmWithGaps(p: readonly (number | null)[]): (number | null)[] {
  const known = holm(p.filter((value) => value !== null))
  let next = 0
  return p.map((value) => (value === null ? null : (known[next++] ?? null)))
}

/** p ≤ risk, where 1 − 0.95 must not lose to 0.05 by its last digit. */
export function isAtMost(p: number, risk: number): boolean {
  return p <= risk * (1 + 1e-12)
}
