import type { SeededRandom } from '../random'

/** Around what a cup is scored, and where the scale ends. */
export const MIDDLE = 6
export const LOWEST = 1
export const HIGHEST = 9

/** A score as a taster can give it: on steps of this size from the lowest on, and not beyond the scale. */
export const onScale = (score: number, step: number) =>
  Math.min(HIGHEST, Math.max(LOWEST, LOWEST + step * Math.round((score - LOWEST) / step)))

/** Normal deviates, two at a time: Box and Muller (1958), Ann. Math. Stat. 29(2), 610–611. */
export function normals(random: SeededRandom): () => number {
  let kept: number | null = null
  return () => {
    if (kept !== null) {
      const one = kept
      kept = null
      return one
    }
    const length = Math.sqrt(-2 * Math.log(1 - random.unit()))
    const angle = 2 * Math.PI * random.unit()
    kept = length * Math.sin(angle)
    return length * Math.cos(angle)
  }
}
