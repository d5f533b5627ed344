import { oneSided, type OneSided, type SequentialLines } from './sequential-lines'

/** Both tests' states and the count for a, with the chance of being there. */
interface Standing {
  readonly x: number
  readonly testA: OneSided
  readonly testB: OneSided
  readonly chance: number
}

/**
 * How does a capped sequential test behave when a share p of tasters prefers a?
 *
 *     the chance of every (count, state of both tests) after n answers, carried forward one answer at a time up to the cap
 *
 * @param max  the cap; who is undecided there has shown nothing
 * @param p    0 < p < 1
 * @returns    chances of showing a and of showing b, and the expected number of answers
 *
 * Source   exact enumeration, as in Aroian (1968), Technometrics 10, 125–132
 * Checked  test/reference/wald-1947-sequential.test.ts
 * Cost     max × the distance between the lines
 */
export function operatingFigures(
  lines: SequentialLines,
  max: number,
  p: number,
): { readonly showA: number; readonly showB: number; readonly average: number } {
  let [showA, showB, average] = [0, 0, 0]
  let open: readonly Standing[] = [{ x: 0, testA: 'running', testB: 'running', chance: 1 }]
  for (let n = 1; n <= max && open.length > 0; n += 1) {
    const next = new Map<string, Standing>()
    for (const standing of open) {
      average += standing.chance
      for (const [answer, share] of [
        [1, p],
        [0, 1 - p],
      ] as const) {
        const x = standing.x + answer
        const testA = standing.testA === 'running' ? oneSided(lines, x, n) : standing.testA
        const testB = standing.testB === 'running' ? oneSided(lines, n - x, n) : standing.testB
        const chance = standing.chance * share
        if (testA === 'shown') showA += chance
        else if (testB === 'shown') showB += chance
        else if (testA === 'running' || testB === 'running') {
          const key = `${x} ${testA} ${testB}`
          next.set(key, { x, testA, testB, chance: chance + (next.get(key)?.chance ?? 0) })
        }
      }
    }
    open = [...next.values()]
  }
  return { showA, showB, average }
}
