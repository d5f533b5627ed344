/** A label that belongs at a height, and takes some room around it. */
export interface Label {
  readonly at: number
  readonly tall: number
}

/**
 * Where do labels stand that must not cover one another? Each as near to its own height as the others let it.
 *
 * @param labels  any order
 * @param low     no label begins above this (y grows downwards)
 * @param high    none ends below this, where there is room for all
 * @returns       the middle of each label, in the order given
 */
export function spreadLabels(labels: readonly Label[], low: number, high: number): readonly number[] {
  const order = labels.map((label, place) => ({ ...label, place })).sort((a, b) => a.at - b.at || a.place - b.place)
  const tops: number[] = []
  let edge = low
  for (const { at, tall } of order) {
    const top = Math.max(edge, at - tall / 2)
    tops.push(top)
    edge = top + tall
  }
  let floor = high
  for (let i = order.length - 1; i >= 0; i--) {
    const tall = order[i]?.tall ?? 0
    const top = Math.max(low, Math.min(tops[i] ?? low, floor - tall))
    tops[i] = top
    floor = top
  }
  const middles = new Array<number>(labels.length).fill(low)
  order.forEach(({ place, tall }, i) => {
    middles[place] = (tops[i] ?? low) + tall / 2
  })
  return middles
}
