import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { canonicalOrder } from './canonical-order'
import { chiSquaredUpper } from '../distribution/chi-squared'
import { fUpper } from '../distribution/f'
import { midranksPresent } from './midrank'
import { countPermutations, nextPermutation } from '../next-permutation'
import { pseudoInverse } from '../algebra/pseudo-inverse'
import { seededRandom } from '../random'

const MOST_ORDERS = 2_000_000
const DRAWS = 200_000
/** The year of Durbin's paper; any fixed number would do. */
const SEED = 1951

export interface DurbinTest {
  readonly chiSquared: number | null
  readonly df: number
  readonly p: number | null
  readonly F: number | null
  readonly df1: number
  readonly df2: number
  readonly pF: number | null
  /** from within-taster orders; it decides where the others disagree */
  readonly pExact: number | null
  /** all orders were counted; otherwise 200 000 seeded ones were drawn */
  readonly counted: boolean
  /** every taster met equally many cups, every cup and every pair of cups occurs equally often */
  readonly balanced: boolean
}

/**
 * Do the cups differ in their places when no taster ranked them all?
 *
 *     balanced:  T₁ = (t − 1) Σⱼ uⱼ² / Σᵢⱼ (rᵢⱼ − r̄ᵢ)²,   uⱼ = Σᵢ (rᵢⱼ − r̄ᵢ),   df = t − 1
 *     else:      T₁ = uᵀ V⁺ u,   V = Σᵢ sᵢ² (Dᵢ − 11ᵀ / kᵢ),   sᵢ² = Σⱼ (rᵢⱼ − r̄ᵢ)² / (kᵢ − 1),   df = rank V
 *     F          of cups beside tasters in the analysis of variance of the ranks, on t − 1 and N − b − t + 1;
 *                in a balanced plan ((b (k − 1) − T₁) / df₂)⁻¹ T₁ / (t − 1)
 *
 *     b tasters, t cups, N ranks, kᵢ cups of taster i with midranks rᵢⱼ and mean r̄ᵢ, Dᵢ the diagonal of cups met
 *
 * @param table  b tasters × t cups, null where not met; any unit, ranked within each taster here
 * @returns      null where every taster tied everything
 * @throws RangeError  rows of unequal length, or a reading that is not finite
 *
 * Source   Durbin (1951), Brit. J. Psych. 4, 85–90; Conover, Practical Nonparametric Statistics, 5.9; unequal plans:
 *          Benard & van Elteren (1953), Indagationes Mathematicae 15, 358–369
 * Checked  test/reference/durbin-1951-incomplete-ranks.test.ts
 * Limits   χ² and F are rough for few tasters and may disagree; `pExact` decides. Drawn, its standard error is below 0.0012.
 */
export function durbin(table: readonly (readonly (number | null)[])[]): DurbinTest {
  const t = table[0]?.length ?? 0
  for (const row of table) demand(row.length === t, `every taster needs ${t} places, got ${row.length}`)
  const ranked = table.map(midranksPresent)
  const along = canonicalOrder(ranked)
  const rows = along.tasters.map((i) => along.cups.map((j) => ranked[i]?.[j] ?? null))
  const blocks = rows.map(blockOf)
  const N = blocks.reduce((sum, { cups }) => sum + cups.length, 0)
  const within = blocks.reduce((sum, { squares }) => sum + squares, 0)
  const balanced = isBalanced(blocks, t)
  const df2 = N - blocks.length - t + 1
  const u = centredSums(blocks, t)
  const nothing = { df: t - 1, df1: t - 1, df2, counted: true, balanced }
  if (within === 0) return { chiSquared: null, p: null, F: null, pF: null, pExact: null, ...nothing }

  const plan = pseudoInverse(covariance(blocks, t, () => 1))
  const spread = pseudoInverse(covariance(blocks, t, ({ cups, squares }) => squares / (cups.length - 1)))
  const weights = balanced ? u.map((_, i) => u.map((_, j) => (i === j ? (t - 1) / within : 0))) : spread.inverse
  const chiSquared = quadratic(u, weights)
  const df = balanced ? t - 1 : spread.rank
  const between = quadratic(u, plan.inverse)
  const F = df2 > 0 && within - between > 1e-12 * within ? between / (t - 1) / ((within - between) / df2) : null
  const orders = blocks.reduce((product, { centred }) => product * countPermutations(centred), 1)
  const counted = orders <= MOST_ORDERS
  const least = chiSquared * (1 - 1e-9)
  const pExact = counted ? countOrders(blocks, weights, least) / orders : drawOrders(blocks, weights, least)
  return {
    ...nothing,
    chiSquared,
    df,
    p: chiSquaredUpper(chiSquared, df),
    F,
    pF: F === null ? null : fUpper(F, t - 1, df2),
    pExact,
    counted,
  }
}

interface Block {
  readonly cups: readonly number[]
  /** ranks less their mean, in the order of `cups` */
  readonly centred: readonly number[]
  readonly squares: number
}

function blockOf(row: readonly (number | null)[]): Block {
  const cups = row.flatMap((rank, j) => (rank === null ? [] : [j]))
  const centred = cups.map((j) => (row[j] ?? lost()) - (cups.length + 1) / 2)
  return { cups, centred, squares: centred.reduce((sum, x) => sum + x * x, 0) }
}

function centredSums(blocks: readonly Block[], t: number): number[] {
  const u = new Array<number>(t).fill(0)
  for (const { cups, centred } of blocks)
    cups.forEach((cup, at) => (u[cup] = (u[cup] ?? lost()) + (centred[at] ?? lost())))
  return u
}

/** Σ wᵢ (Dᵢ − 11ᵀ / kᵢ) over tasters who met two cups or more. */
function covariance(blocks: readonly Block[], t: number, weight: (block: Block) => number): number[][] {
  const matrix = Array.from({ length: t }, () => new Array<number>(t).fill(0))
  for (const block of blocks.filter(({ cups }) => cups.length > 1)) {
    const w = weight(block)
    for (const a of block.cups) {
      for (const b of block.cups) {
        const row = matrix[a]
        if (row) row[b] = (row[b] ?? lost()) + w * ((a === b ? 1 : 0) - 1 / block.cups.length)
      }
    }
  }
  return matrix
}

function isBalanced(blocks: readonly Block[], t: number): boolean {
  const sizes = new Set(blocks.map(({ cups }) => cups.length))
  const together = covariance(blocks, t, ({ cups }) => cups.length)
  const met = new Set(together.flatMap((row, a) => row.filter((_, b) => a !== b)).map(Math.round))
  const own = new Set(Array.from({ length: t }, (_, cup) => blocks.filter(({ cups }) => cups.includes(cup)).length))
  return sizes.size === 1 && met.size === 1 && own.size === 1
}

function quadratic(u: readonly number[], weights: readonly (readonly number[])[]): number {
  return u.reduce((sum, x, i) => sum + x * u.reduce((inner, y, j) => inner + y * (weights[i]?.[j] ?? lost()), 0), 0)
}

function countOrders(blocks: readonly Block[], weights: readonly (readonly number[])[], least: number): number {
  const u = new Array<number>(weights.length).fill(0)
  const walk = (at: number): number => {
    const block = blocks[at]
    if (!block) return quadratic(u, weights) >= least ? 1 : 0
    const doubled = Int32Array.from(block.centred, (x) => 2 * x).sort()
    let count = 0
    do {
      block.cups.forEach((cup, i) => (u[cup] = (u[cup] ?? lost()) + (doubled[i] ?? lost()) / 2))
      count += walk(at + 1)
      block.cups.forEach((cup, i) => (u[cup] = (u[cup] ?? lost()) - (doubled[i] ?? lost()) / 2))
    } while (nextPermutation(doubled))
    return count
  }
  return walk(0)
}

/** The order seen counts as one of the draws, so that p is never 0. Shuffled in place: 200 000 draws of new lists are slow. */
function drawOrders(blocks: readonly Block[], weights: readonly (readonly number[])[], least: number): number {
  const random = seededRandom(SEED)
  const drawn = blocks.map(({ cups, centred }) => ({
    cups: Int32Array.from(cups),
    centred: Float64Array.from(centred),
  }))
  const u = new Float64Array(weights.length)
  const flat = Float64Array.from(weights.flat())
  let far = 1
  for (let draw = 0; draw < DRAWS; draw += 1) {
    u.fill(0)
    for (const { cups, centred } of drawn) {
      for (let last = centred.length - 1; last >= 0; last -= 1) {
        const at = last === 0 ? 0 : random.below(last + 1)
        const rank = centred[at] as number
        centred[at] = centred[last] as number
        centred[last] = rank
        const cup = cups[last] as number
        u[cup] = (u[cup] as number) + rank
      }
    }
    let value = 0
    for (let i = 0; i < u.length; i += 1) {
      for (let j = 0; j < u.length; j += 1)
        value += (u[i] as number) * (u[j] as number) * (flat[i * u.length + j] as number)
    }
    if (value >= least) far += 1
  }
  return far / (DRAWS + 1)
}
