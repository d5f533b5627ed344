import type { AcceptanceRow } from '@/lib/stats/liking/acceptance'
import { seededRandom } from '@/lib/stats/random'

/** Invented scores: tasters with a level of their own, the first `served` of a rotation of the cups each. */
export function inventedRows(tasters: number, cups: number, served: number, seed: number): AcceptanceRow[] {
  const random = seededRandom(seed)
  const noise = () => random.unit() + random.unit() + random.unit() - 1.5
  return Array.from({ length: tasters }, (_, taster) => {
    const level = noise()
    return Array.from({ length: served }, (_unused, at) => {
      const cup = (taster + at) % cups
      const score = Math.min(9, Math.max(1, Math.round(5.5 + level + cup * 0.15 + 2 * noise())))
      return { taster: String(taster), cup: `cup ${cup + 1}`, score, position: at + 1 }
    })
  }).flat()
}

/** The same panel as `npm run stats` reads it. */
export function csvOf(rows: readonly AcceptanceRow[]): string {
  return ['taster,cup,score', ...rows.map((row) => `${row.taster},${row.cup},${row.score}`)].join('\n')
}

export const withoutOrder = (rows: readonly AcceptanceRow[]) => rows.map((row) => ({ ...row, position: null }))
