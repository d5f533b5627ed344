import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { chiSquaredUpper } from '../distribution/chi-squared'
import { unbeatenSet } from './unbeaten-set'
import { climb, type Slopes, type WorthFit } from './plackett-luce'

/** How often a was preferred to b, b to a, and neither; a and b are cups as numbers from 0. */
export interface PairCount {
  readonly a: number
  readonly b: number
  readonly preferA: number
  readonly preferB: number
  readonly none: number
}

export type BradleyTerryFit = WorthFit & {
  /** Davidson's parameter of no preference; null without such answers */
  readonly nu: number | null
  /** against a model that lets every pair be as it is */
  readonly deviance: number | null
  readonly df: number
  readonly p: number | null
}

/**
 * How much is each cup worth, if a taster prefers a to b with odds of their worths?
 *
 *     P(a) = πa / D,   P(b) = πb / D,   P(neither) = ν √(πa πb) / D,   D = πa + πb + ν √(πa πb),   θ = log π, Σ θ = 0
 *
 * Without an answer "neither" ν is 0 and this is Bradley and Terry's model; with one it is Davidson's.
 *
 * @param pairs  counts ≥ 0, each pair of cups at most once
 * @param k      how many cups there are
 * @returns      maximum likelihood by Newton's method; se from the inverse information of the centred worths;
 *               deviance df: pairs less k − 1, or twice the pairs less k. `unbeaten` when no finite worth exists.
 * @throws RangeError  a pair that occurs twice or a count below 0
 *
 * Source   Bradley & Terry (1952), Biometrika 39, 324–345; Davidson (1970), J. Am. Stat. Assoc. 65, 317–328; Ford (1957)
 * Checked  test/reference/bradley-1952-pairs.test.ts
 * Limits   Answers of one taster on several pairs are taken as independent.
 */
export function bradleyTerry(pairs: readonly PairCount[], k: number): BradleyTerryFit {
  checkPairs(pairs, k)
  const met = pairs
    .filter(({ preferA, preferB, none }) => preferA + preferB + none > 0)
    .sort((x, y) => x.a - y.a || x.b - y.b)
  const ties = met.some(({ none }) => none > 0)
  const df = ties ? 2 * met.length - k : met.length - (k - 1)
  const unbeaten = withoutFit(met, k, ties)
  if (unbeaten) return { unbeaten, nu: null, deviance: null, df, p: null }

  const top = climb(new Array<number>(ties ? k + 1 : k).fill(0), (theta) => slopes(met, theta, k, ties))
  const worth = top.at.slice(0, k)
  const deviance = Math.max(0, 2 * (saturated(met) - top.value))
  return {
    worth,
    se: worth.map((_, i) => Math.sqrt(top.covariance[i]?.[i] ?? lost())),
    logLikelihood: top.value,
    nu: ties ? Math.exp(top.at[k] ?? lost()) : null,
    deviance,
    df,
    p: df > 0 ? chiSquaredUpper(deviance, df) : null,
  }
}

function checkPairs(pairs: readonly PairCount[], k: number): void {
  const seen = new Set<string>()
  for (const { a, b, preferA, preferB, none } of pairs) {
    demand(a !== b && a >= 0 && b >= 0 && a < k && b < k, `no such pair of cups: ${a}, ${b}`)
    const key = `${Math.min(a, b)} ${Math.max(a, b)}`
    demand(!seen.has(key), `the pair of cups ${key} occurs twice`)
    seen.add(key)
    for (const count of [preferA, preferB, none]) demand(count >= 0, `a count must not be negative, got ${count}`)
  }
}

/**
 * Looks for a direction in which the likelihood never falls: cups that never lose (ν standing still), or, with ν growing,
 * places at which each preference spans a step and each tie no more than one, which exist unless some circle of answers
 * holds more preferences than ties.
 */
function withoutFit(met: readonly PairCount[], k: number, ties: boolean): number[] | null {
  const beat = Array.from({ length: k }, () => new Array<boolean>(k).fill(false))
  for (const { a, b, preferA, preferB, none } of met) {
    if (preferA + none > 0) beat[a]?.fill(true, b, b + 1)
    if (preferB + none > 0) beat[b]?.fill(true, a, a + 1)
  }
  const unbeaten = k > 1 ? unbeatenSet(beat) : null
  if (unbeaten || !ties) return unbeaten
  const bounds = met.flatMap(({ a, b, preferA, preferB, none }) => [
    ...(preferA > 0 ? [{ from: a, to: b, most: -1 }] : []),
    ...(preferB > 0 ? [{ from: b, to: a, most: -1 }] : []),
    ...(none > 0
      ? [
          { from: a, to: b, most: 1 },
          { from: b, to: a, most: 1 },
        ]
      : []),
  ])
  const place = new Array<number>(k).fill(0)
  for (let round = 0; round < k; round += 1) {
    let moved = false
    for (const { from, to, most } of bounds) {
      if ((place[to] ?? lost()) <= (place[from] ?? lost()) + most) continue
      place[to] = (place[from] ?? lost()) + most
      moved = true
    }
    if (!moved) return place.map((_, cup) => cup).filter((cup) => place[cup] === Math.max(...place))
  }
  return null
}

function slopes(met: readonly PairCount[], theta: readonly number[], k: number, ties: boolean): Slopes {
  const gradient = theta.map(() => 0)
  const information = theta.map(() => theta.map(() => 0))
  let value = 0
  for (const { a, b, preferA, preferB, none } of met) {
    const outcomes = [
      { count: preferA, parts: [[a, 1]] as const },
      { count: preferB, parts: [[b, 1]] as const },
      ...(ties
        ? [
            {
              count: none,
              parts: [
                [a, 0.5],
                [b, 0.5],
                [k, 1],
              ] as const,
            },
          ]
        : []),
    ].map((outcome) => ({
      ...outcome,
      score: outcome.parts.reduce((sum, [j, x]) => sum + x * (theta[j] ?? lost()), 0),
    }))
    const most = Math.max(...outcomes.map(({ score }) => score))
    const total = outcomes.reduce((sum, { score }) => sum + Math.exp(score - most), 0)
    const n = preferA + preferB + none
    const average = new Map<number, number>()
    for (const { count, parts, score } of outcomes) {
      const share = Math.exp(score - most) / total
      value += count === 0 ? 0 : count * (score - most - Math.log(total))
      for (const [j, x] of parts) {
        gradient[j] = (gradient[j] ?? lost()) + (count - n * share) * x
        average.set(j, (average.get(j) ?? 0) + share * x)
        const row = information[j] ?? []
        for (const [l, y] of parts) row[l] = (row[l] ?? lost()) + n * share * x * y
      }
    }
    for (const [j, x] of average) {
      const row = information[j] ?? []
      for (const [l, y] of average) row[l] = (row[l] ?? lost()) - n * x * y
    }
  }
  return { value, gradient, information }
}

function saturated(met: readonly PairCount[]): number {
  const own = (count: number, n: number): number => (count === 0 ? 0 : count * Math.log(count / n))
  return met.reduce((sum, { preferA, preferB, none }) => {
    const n = preferA + preferB + none
    return sum + own(preferA, n) + own(preferB, n) + own(none, n)
  }, 0)
}
