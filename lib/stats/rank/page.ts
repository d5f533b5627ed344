import { demand } from '@/lib/base/demand'
import { normalUpper } from '../distribution/normal'
import { midranks } from './midrank'

/** Subsets of places kept while one taster's orders are counted, times the sums they can have. */
const MOST_STATES = 2_000_000

export interface PageTest {
  readonly L: number
  /** null when every taster tied everything */
  readonly z: number | null
  /** one-sided, normal */
  readonly p: number | null
  /** one-sided, over all orders within every taster with the ties made; null where that takes more than 2 million states */
  readonly pExact: number | null
}

/**
 * Do the cups come in the order expected beforehand?
 *
 *     L = Σⱼ j Rⱼ,   j = 1 for the cup expected to have the lowest rank sum,   Rⱼ its rank sum
 *     z = (L − n k (k + 1)² / 4) / √V,   V = Σⱼ (j − j̄)² · Σᵢ Σⱼ (rᵢⱼ − r̄)² / (k − 1)
 *
 * Without ties V = n k² (k + 1)² (k − 1) / 144.
 *
 * @param readings  n tasters × k cups, complete, columns in the order expected, smallest reading first; ranked here
 * @returns         one-sided towards that order
 * @throws RangeError  rows of unequal length, or a reading that is not finite
 *
 * Source   Page (1963), J. Am. Stat. Assoc. 58, 216–230; ISO 8587
 * Checked  test/reference/page-1963-trend.test.ts
 * Limits   The order must be fixed before the scores are seen.
 * Cost     2ᵏ × the sums one taster can have, then n × (all sums)
 */
export function page(readings: readonly (readonly number[])[]): PageTest {
  const k = readings[0]?.length ?? 0
  for (const row of readings) demand(row.length === k, `every taster needs ${k} readings, got ${row.length}`)
  const ranks = readings.map(midranks)
  const middle = (k + 1) / 2
  const L = ranks.reduce((sum, row) => sum + row.reduce((own, rank, j) => own + (j + 1) * rank, 0), 0)
  const within = ranks.flat().reduce((sum, rank) => sum + (rank - middle) ** 2, 0)
  if (within === 0) return { L, z: null, p: null, pExact: null }
  const places = (k * (k * k - 1)) / 12
  const z = (L - ranks.length * k * middle * middle) / Math.sqrt((places * within) / (k - 1))
  return { L, z, p: normalUpper(z), pExact: exactTail(ranks, L) }
}

/** Adds the tasters' own distributions of 2L one after the other. */
function exactTail(ranks: readonly (readonly number[])[], L: number): number | null {
  const doubled = ranks.map((row) => row.map((rank) => 2 * rank).sort((a, b) => a - b))
  doubled.sort((a, b) => a.join().localeCompare(b.join()))
  const known = new Map<string, Distribution | null>()
  let all: Distribution = { from: 0, chance: Float64Array.of(1) }
  for (const row of doubled) {
    const key = row.join()
    if (!known.has(key)) known.set(key, oneTaster(row))
    const own = known.get(key) ?? null
    if (own === null || all.chance.length + own.chance.length > MOST_STATES) return null
    all = add(all, own)
  }
  let tail = 0
  for (let at = Math.max(0, 2 * L - all.from); at < all.chance.length; at += 1) tail += all.chance[at] as number
  return Math.min(1, tail)
}

/** Chances of the whole numbers from, from + 1, … */
interface Distribution {
  readonly from: number
  readonly chance: Float64Array
}

/** Places are filled one by one; a state is the set of ranks used so far and the sum Σ j r they have made. */
function oneTaster(row: readonly number[]): Distribution | null {
  const k = row.length
  const most = row.reduce((sum, rank, j) => sum + (j + 1) * rank, 0)
  if (2 ** k * (most + 1) > 16 * MOST_STATES) return null
  let layer = new Map<number, Float64Array>([[0, Float64Array.of(1)]])
  for (let place = 1; place <= k; place += 1) {
    const next = new Map<number, Float64Array>()
    for (const [used, chance] of layer) {
      row.forEach((rank, bit) => {
        if (used & (1 << bit)) return
        const into = next.get(used | (1 << bit)) ?? new Float64Array(most + 1)
        next.set(used | (1 << bit), into)
        chance.forEach((share, sum) => {
          if (share > 0) into[sum + place * rank] = (into[sum + place * rank] as number) + share / (k - place + 1)
        })
      })
    }
    layer = next
  }
  const chance = layer.get(2 ** k - 1) ?? Float64Array.of(1)
  const from = chance.findIndex((share) => share > 0)
  return { from, chance: chance.slice(from) }
}

function add(a: Distribution, b: Distribution): Distribution {
  const chance = new Float64Array(a.chance.length + b.chance.length - 1)
  b.chance.forEach((share, at) => {
    if (share > 0)
      for (let i = 0; i < a.chance.length; i += 1)
        chance[at + i] = (chance[at + i] as number) + (a.chance[i] as number) * share
  })
  return { from: a.from + b.from, chance }
}
