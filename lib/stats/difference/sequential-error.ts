import { oneSided, type OneSided, type SequentialLines } from './sequential-lines'

/** Both tests' states and the count for a, with the chance of being there. */
interface Standing {
  readonly x: number
  readonly testA: OneSided
  readonly testB: OneSided
  readonly chance: number
}

/** After how many answers a decision may be taken; null: after each. */
export type Looks = ReadonlySet<number> | null

export const isLook = (looks: Looks, n: number): boolean => looks === null || looks.has(n)

/**
 * How does one capped Wald test behave when answers are right with chance p?
 *
 * @param max    the cap; who is undecided there has shown nothing
 * @returns      chances of showing a difference and of showing none, and the expected number of answers
 *
 * Source   exact enumeration, as in Aroian (1968), Technometrics 10, 125–132
 * Checked  test/reference/wald-1947-looks.test.ts
 */
export function oneTestFigures(
  lines: SequentialLines,
  max: number,
  p: number,
  looks: Looks = null,
): { readonly shown: number; readonly notShown: number; readonly average: number } {
  let [shown, notShown, average] = [0, 0, 0]
  let open = new Map<number, number>([[0, 1]])
  for (let n = 1; n <= max && open.size > 0; n += 1) {
    const next = new Map<number, number>()
    for (const [x, chance] of open) {
      average += chance
      for (const [count, share] of [
        [x + 1, p],
        [x, 1 - p],
      ] as const) {
        const now = isLook(looks, n) ? oneSided(lines, count, n) : 'running'
        if (now === 'shown') shown += chance * share
        else if (now === 'not shown') notShown += chance * share
        else next.set(count, (next.get(count) ?? 0) + chance * share)
      }
    }
    open = next
  }
  return { shown, notShown, average }
}

/**
 * How does a capped sequential test behave when a share p of tasters prefers a?
 *
 *     the chance of every (count, state of both tests) after n answers, carried forward one answer at a time up to the cap
 *
 * @param max  the cap; who is undecided there has shown nothing
 * @param p    0 < p < 1
 * @param looks  after how many answers one looks; null: after each
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
  looks: Looks = null,
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
        const looked = isLook(looks, n)
        const testA = looked && standing.testA === 'running' ? oneSided(lines, x, n) : standing.testA
        const testB = looked && standing.testB === 'running' ? oneSided(lines, n - x, n) : standing.testB
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
