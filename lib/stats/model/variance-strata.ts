import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'

/**
 * Blocks of the scores that are independent of one another and share one small variance matrix.
 *
 *     V = Σᵣ σᵣ² Gᵣ,   r = 0 residual, 1 taster, 2 taster by cup;   each Gᵣ is size × size
 */
export interface Stratum {
  /** how many independent blocks of this kind there are */
  readonly count: number
  readonly size: number
  /** one size × size matrix per variance component */
  readonly structure: readonly Float64Array[]
  /** Σ over blocks of zₐ zᵦᵀ + zᵦ zₐᵀ (halved for a = b), for a ≤ b row by row; z holds the design row with the score last */
  readonly products: readonly Float64Array[]
}

/** Design rows with the score in the last place, sorted so that a taster's rows, and a cup's within them, stand together. */
export interface DesignRows {
  readonly rows: Float64Array
  /** numbers per row: the columns of the design and the score */
  readonly width: number
  readonly tasterOf: Int32Array
  readonly cupOf: Int32Array
}

/**
 * Into which independent strata do scores with a random taster (and taster by cup) fall?
 *
 * Rotating each taster's scores to differences within a cup, differences between cups and the taster's own sum makes V
 * block diagonal with blocks as small as the number of different repeat counts a taster has: mostly 1 × 1. Everything
 * the likelihood needs is then a cross-product of design rows per stratum.
 *
 * @param design  n rows, sorted by taster and then cup
 * @param nested  true: with the component taster by cup
 * @throws RangeError  no rows, or rows whose lengths disagree
 *
 * Source   Searle, Casella and McCulloch (1992), Variance Components, chapters 3 and 5 (nested layouts).
 * Checked  test/unit/stats/model/variance-strata.test.ts
 * Cost     linear in the scores, quadratic in the columns
 */
export function varianceStrata(design: DesignRows, nested: boolean): readonly Stratum[] {
  const n = design.tasterOf.length
  demand(n > 0, `strata need at least one score, got ${n}`)
  demand(design.rows.length === n * design.width, `${n} rows of ${design.width} expected, got ${design.rows.length}`)
  return nested ? nestedStrata(design) : tasterStrata(design)
}

class Growing implements Stratum {
  count = 0
  readonly products: Float64Array[]

  constructor(
    readonly size: number,
    readonly structure: readonly Float64Array[],
    private readonly width: number,
  ) {
    this.products = Array.from({ length: (size * (size + 1)) / 2 }, () => new Float64Array(width * width))
  }

  /** Adds weight · z zᵀ, for strata of size 1. */
  add(z: Float64Array, weight: number) {
    const [product] = this.products
    if (product) addOuter(product, z, z, weight, this.width)
  }

  /** Adds the cross-products of one block given by its vectors. */
  addBlock(vectors: readonly Float64Array[]) {
    let place = 0
    vectors.forEach((za, a) => {
      for (const zb of vectors.slice(a)) {
        const product = this.products[place++]
        if (!product) continue
        addOuter(product, za, zb, 1, this.width)
        if (zb !== za) addOuter(product, zb, za, 1, this.width)
      }
    })
    this.count++
  }
}

function addOuter(product: Float64Array, x: Float64Array, y: Float64Array, weight: number, width: number) {
  for (let i = 0; i < width; i++) {
    const left = weight * (x[i] ?? lost())
    if (left === 0) continue
    const from = i * width
    for (let j = 0; j < width; j++) product[from + j] = (product[from + j] ?? lost()) + left * (y[j] ?? lost())
  }
}

function tasterStrata({ rows, width, tasterOf }: DesignRows): readonly Stratum[] {
  const within = new Growing(1, [scalar(1), scalar(0)], width)
  const between = new Map<number, Growing>()
  const centre = new Float64Array(width)
  const away = new Float64Array(width)
  forEachRun(tasterOf, 0, tasterOf.length, (from, to) => {
    const n = to - from
    meanRow(rows, width, from, to, centre)
    if (n > 1) for (let row = from; row < to; row++) within.add(difference(rows, row * width, centre, away), 1)
    within.count += n - 1
    const stratum = between.get(n) ?? new Growing(1, [scalar(1), scalar(n)], width)
    between.set(n, stratum)
    stratum.add(centre, n)
    stratum.count++
  })
  return [within, ...inOrder(between)]
}

function nestedStrata({ rows, width, tasterOf, cupOf }: DesignRows): readonly Stratum[] {
  const within = new Growing(1, [scalar(1), scalar(0), scalar(0)], width)
  const contrasts = new Map<number, Growing>()
  const sums = new Map<string, Growing>()
  const away = new Float64Array(width)
  forEachRun(tasterOf, 0, tasterOf.length, (from, to) => {
    const cells = new Map<number, Float64Array[]>()
    forEachRun(cupOf, from, to, (first, last) => {
      const m = last - first
      const cell = new Float64Array(width)
      meanRow(rows, width, first, last, cell)
      if (m > 1) for (let row = first; row < last; row++) within.add(difference(rows, row * width, cell, away), 1)
      within.count += m - 1
      for (let j = 0; j < width; j++) cell[j] = (cell[j] ?? lost()) * Math.sqrt(m)
      cells.set(m, [...(cells.get(m) ?? []), cell])
    })

    const repeats = [...cells].sort(([a], [b]) => a - b)
    const vectors: Float64Array[] = []
    for (const [m, same] of repeats) {
      const stratum = contrasts.get(m) ?? new Growing(1, [scalar(1), scalar(0), scalar(m)], width)
      contrasts.set(m, stratum)
      const centre = new Float64Array(width)
      for (const cell of same)
        for (let j = 0; j < width; j++) centre[j] = (centre[j] ?? lost()) + (cell[j] ?? lost()) / same.length
      if (same.length > 1) for (const cell of same) stratum.add(difference(cell, 0, centre, away), 1)
      stratum.count += same.length - 1
      vectors.push(centre.map((value) => value * Math.sqrt(same.length)))
    }
    const key = repeats.map(([m, same]) => `${m}:${same.length}`).join()
    const stratum = sums.get(key) ?? new Growing(vectors.length, sumStructure(repeats), width)
    sums.set(key, stratum)
    stratum.addBlock(vectors)
  })
  return [within, ...inOrder(contrasts), ...inOrder(sums)]
}

/** The three components on a taster's sums over cups with the same number of repeats m, k cups each. */
function sumStructure(repeats: readonly (readonly [number, readonly Float64Array[]])[]): readonly Float64Array[] {
  const size = repeats.length
  const reach = repeats.map(([m, same]) => Math.sqrt(m * same.length))
  const diagonal = (value: (m: number) => number) => {
    const matrix = new Float64Array(size * size)
    repeats.forEach(([m], i) => (matrix[i * size + i] = value(m)))
    return matrix
  }
  const taster = Float64Array.from({ length: size * size }, (_, i) => {
    return (reach[Math.floor(i / size)] ?? lost()) * (reach[i % size] ?? lost())
  })
  return [diagonal(() => 1), taster, diagonal((m) => m)]
}

/** Strata in the order of their keys, so that the order of the tasters leaves no trace in the last digit. */
function inOrder<Key extends number | string>(strata: ReadonlyMap<Key, Growing>): readonly Stratum[] {
  return [...strata]
    .filter(([, stratum]) => stratum.count > 0)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, stratum]) => stratum)
}

function forEachRun(keys: Int32Array, from: number, to: number, visit: (from: number, to: number) => void) {
  let first = from
  for (let row = from + 1; row <= to; row++) {
    if (row < to && keys[row] === keys[first]) continue
    visit(first, row)
    first = row
  }
}

function meanRow(rows: Float64Array, width: number, from: number, to: number, centre: Float64Array) {
  centre.fill(0)
  for (let i = from * width, j = 0; i < to * width; i++, j = j + 1 === width ? 0 : j + 1) {
    centre[j] = (centre[j] ?? lost()) + (rows[i] ?? lost())
  }
  for (let j = 0; j < width; j++) centre[j] = (centre[j] ?? lost()) / (to - from)
}

function difference(rows: Float64Array, from: number, centre: Float64Array, away: Float64Array): Float64Array {
  for (let j = 0; j < centre.length; j++) away[j] = (rows[from + j] ?? lost()) - (centre[j] ?? lost())
  return away
}

function scalar(value: number): Float64Array {
  return Float64Array.of(value)
}
