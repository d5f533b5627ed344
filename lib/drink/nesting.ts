import type { BuildLine, Preparation } from './trial'

/** How many preparations may stand one inside the other: a syrup of a syrup is two. No house needs more; a slip or a trap may. */
export const MOST_LEVELS = 12

/** Things that hold one another, put in order. */
export type Nesting<Thing> = {
  /** each once, whatever holds it before it is held: the innermost first */
  readonly order: readonly Thing[]
  /** for each thing that holds itself, the path from it back to it */
  readonly loops: ReadonlyMap<Thing, readonly Thing[]>
}

/**
 * In which order can things that hold one another be worked out, each only once?
 *
 * @param roots   where to begin
 * @param within  what one thing holds directly; asked once per thing
 * @returns       all that is reached. Within a loop the order is that of first opening, and the loop is named.
 *
 * Source   depth-first search, kept on a list and not on the call stack: a chain of thousands must not end a page
 * Checked  test/unit/drink/nesting.test.ts
 */
export function innermostFirst<Thing>(
  roots: Iterable<Thing>,
  within: (thing: Thing) => Iterable<Thing>,
): Nesting<Thing> {
  const order: Thing[] = []
  const loops = new Map<Thing, readonly Thing[]>()
  const met = new Set<Thing>()
  const open = new Set<Thing>()
  const path: { readonly thing: Thing; readonly held: Iterator<Thing> }[] = []
  const enter = (thing: Thing) => {
    met.add(thing)
    open.add(thing)
    path.push({ thing, held: within(thing)[Symbol.iterator]() })
  }
  for (const root of roots) {
    if (!met.has(root)) enter(root)
    for (let last = path.at(-1); last; last = path.at(-1)) {
      const next = last.held.next()
      if (next.done) {
        path.pop()
        open.delete(last.thing)
        order.push(last.thing)
      } else if (open.has(next.value)) {
        if (!loops.has(next.value)) {
          const around = path.slice(path.findIndex(({ thing }) => thing === next.value)).map(({ thing }) => thing)
          loops.set(next.value, [...around, next.value])
        }
      } else if (!met.has(next.value)) enter(next.value)
    }
  }
  return { order, loops }
}

/** The preparations that stand directly in these lines. */
export const preparationsOf = (lines: readonly BuildLine[]): readonly Preparation[] =>
  lines.flatMap(({ preparation }) => preparation ?? [])

/** Every preparation poured into these lines, through whatever chain, each once and the innermost first. */
export function preparationsWithin(lines: readonly BuildLine[]): readonly Preparation[] {
  return innermostFirst(preparationsOf(lines), ({ inputs }) => preparationsOf(inputs)).order
}

/**
 * How many levels of preparations stand below these?
 *
 * @param roots  where to begin
 * @param uses   what each is made of
 * @returns      0 without roots; a loop is counted once around
 *
 * Source   longest path, innermost first
 * Checked  test/unit/drink/nesting.test.ts
 */
export function levelsOf<Thing>(roots: Iterable<Thing>, uses: (thing: Thing) => Iterable<Thing>): number {
  const held = [...roots]
  const levels = new Map<Thing, number>()
  const above = (things: Iterable<Thing>) => {
    let most = 0
    for (const one of things) most = Math.max(most, levels.get(one) ?? 0)
    return most
  }
  for (const thing of innermostFirst(held, uses).order) levels.set(thing, 1 + above(uses(thing)))
  return above(held)
}
