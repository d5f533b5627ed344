import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { unbeatenSet } from './unbeaten-set'
import { pseudoInverse } from '../algebra/pseudo-inverse'

/** Worths on the log scale, mean zero, with the standard errors of that scale; or the cups that no finite worth fits. */
export type WorthFit =
  | { readonly worth: readonly number[]; readonly se: readonly number[]; readonly logLikelihood: number }
  | { readonly unbeaten: readonly number[] }

/**
 * How much is each cup worth, if tasters rank by choosing the best of those left, again and again?
 *
 *     P(ranking) = Π over stages of exp θ(chosen) / Σ exp θ(left),   Σ θ = 0
 *
 * @param rankings  one per taster: cups as numbers from 0, liked most first; partial rankings may leave cups out
 * @param k         how many cups there are
 * @returns         maximum likelihood by Newton's method; se from the inverse information of the centred worths;
 *                  `unbeaten` names a set of cups always ranked above the others, for which no finite worth exists
 * @throws RangeError  a cup outside 0 … k − 1, or twice in one ranking
 *
 * Source   Plackett (1975), Applied Statistics 24, 193–202; Hunter (2004), Annals of Statistics 32(1), 384–406
 * Checked  test/reference/plackett-1975-worths.test.ts
 * Limits   No ties. Tasters are taken to be alike.
 */
export function plackettLuce(rankings: readonly (readonly number[])[], k: number): WorthFit {
  for (const ranking of rankings) {
    demand(new Set(ranking).size === ranking.length, `a cup occurs twice in the ranking ${ranking.join(' ')}`)
    for (const cup of ranking) demand(Number.isInteger(cup) && cup >= 0 && cup < k, `no such cup: ${cup}`)
  }
  const beat = Array.from({ length: k }, () => new Array<boolean>(k).fill(false))
  for (const ranking of rankings) {
    ranking.forEach((cup, at) => ranking.slice(at + 1).forEach((below) => beat[cup]?.fill(true, below, below + 1)))
  }
  const unbeaten = k > 1 ? unbeatenSet(beat) : null
  if (unbeaten) return { unbeaten }

  // The same rankings in another order of rows must add up to the same last digit.
  const ordered = rankings.map((ranking) => [...ranking]).sort((a, b) => a.join().localeCompare(b.join()))
  const { at, covariance, value } = climb(new Array<number>(k).fill(0), (theta) => slopes(ordered, theta))
  return { worth: at, se: covariance.map((row, i) => Math.sqrt(row[i] ?? lost())), logLikelihood: value }
}

/** What Newton's method needs at one point: the value, the gradient and the information (minus the second derivatives). */
export interface Slopes {
  readonly value: number
  readonly gradient: readonly number[]
  readonly information: readonly (readonly number[])[]
}

/**
 * Where is a concave log-likelihood highest?
 *
 *     θ ← θ + I⁺ g, the step halved until the value does not fall
 *
 * @param start   where to begin; directions the information leaves out stay as they are
 * @param slopes  value, gradient g and information I at a point
 * @returns       the top, the value there, and I⁺
 * @throws RangeError  no top within 200 steps
 *
 * Source   Newton's method with halving, common practice
 * Checked  test/reference/plackett-1975-worths.test.ts
 */
export function climb(
  start: readonly number[],
  slopesAt: (theta: readonly number[]) => Slopes,
): { readonly at: number[]; readonly value: number; readonly covariance: number[][] } {
  let at = [...start]
  let here = slopesAt(at)
  for (let step = 0; step < 200; step += 1) {
    const { inverse } = pseudoInverse(here.information)
    const move = inverse.map((row) => row.reduce((sum, x, j) => sum + x * (here.gradient[j] ?? lost()), 0))
    const gain = move.reduce((sum, x, j) => sum + x * (here.gradient[j] ?? lost()), 0)
    if (gain < 1e-22 * (1 + Math.abs(here.value))) return { at, value: here.value, covariance: inverse }
    let length = 1
    let next = at
    let there = here
    do {
      next = at.map((x, j) => x + length * (move[j] ?? lost()))
      there = slopesAt(next)
      length /= 2
    } while (!(there.value >= here.value - 1e-12 * (1 + Math.abs(here.value))) && length > 1e-10)
    at = next
    here = there
  }
  throw new RangeError(`the likelihood did not settle within 200 steps, value ${here.value}`)
}

function slopes(rankings: readonly (readonly number[])[], theta: readonly number[]): Slopes {
  const gradient = theta.map(() => 0)
  const information = theta.map(() => theta.map(() => 0))
  let value = 0
  for (const ranking of rankings) {
    for (let stage = 0; stage + 1 < ranking.length; stage += 1) {
      const left = ranking.slice(stage)
      const most = Math.max(...left.map((cup) => theta[cup] ?? lost()))
      const weights = left.map((cup) => Math.exp((theta[cup] ?? lost()) - most))
      const total = weights.reduce((sum, w) => sum + w, 0)
      const chosen = left[0] ?? lost()
      value += (theta[chosen] ?? lost()) - most - Math.log(total)
      gradient[chosen] = (gradient[chosen] ?? lost()) + 1
      left.forEach((a, i) => {
        const share = (weights[i] ?? lost()) / total
        gradient[a] = (gradient[a] ?? lost()) - share
        const row = information[a] ?? []
        row[a] = (row[a] ?? lost()) + share
        left.forEach((b, j) => (row[b] = (row[b] ?? lost()) - (share * (weights[j] ?? lost())) / total))
      })
    }
  }
  return { value, gradient, information }
}
