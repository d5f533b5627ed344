/**
 * How even can pair counts be at all, given how often each cup is served?
 *
 *     rᵢ = servings of cup i (differing by one at most); cup i has rᵢ (M − 1) companions among K − 1 cups.
 *     The least s for which counts t … t + s with these sums exist (Erdős and Gallai's condition with up to s per pair).
 *
 * @returns  a lower bound of largest minus smallest count; no set of trays can be below it
 *
 * Source   Erdős and Gallai (1960); for multigraphs Chungphaisan (1974), Discrete Math. 7, 31–39
 * Checked  test/unit/panel/least-spread.test.ts
 */
export function leastSpread(trays: number, cups: number, size: number): number {
  const least = Math.floor((trays * size) / cups)
  const more = trays * size - least * cups
  const companions = Array.from({ length: cups }, (_, at) => (least + (at < more ? 1 : 0)) * (size - 1))
  const top = Math.ceil(((least + 1) * (size - 1)) / (cups - 1))
  for (let s = 0; s < top; s += 1) {
    for (let t = 0; t <= top; t += 1) {
      if (
        graphical(
          companions.map((sum) => sum - t * (cups - 1)),
          s,
        )
      )
        return s
    }
  }
  return top
}

/** Is there a graph with these degrees, falling, and at most `most` edges between two points? */
function graphical(degrees: readonly number[], most: number): boolean {
  const total = degrees.reduce((sum, degree) => sum + degree, 0)
  if (total % 2 !== 0 || degrees.some((degree) => degree < 0)) return false
  return degrees.every((_, at) => {
    const k = at + 1
    const inside = degrees.slice(0, k).reduce((sum, degree) => sum + degree, 0)
    const outside = degrees.slice(k).reduce((sum, degree) => sum + Math.min(degree, most * k), 0)
    return inside <= most * k * (k - 1) + outside
  })
}
