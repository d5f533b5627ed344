import { lost } from '@/lib/base/lost'

export type TauMethod = 'dersimonian-laird' | 'reml'

/** One panel's difference with the square of its standard error. */
export interface Weighed {
  readonly difference: number
  readonly variance: number
}

/**
 * What is the weighted mean of panels that vary by τ² beyond their own errors?
 *
 *     w = 1 / (v + τ²),   μ = Σ w d / Σ w,   se = 1 / √Σw,   Q = Σ w (d − μ)²
 *
 * Source   DerSimonian & Laird (1986), Controlled Clinical Trials 7, 177–188
 * Checked  test/reference/dersimonian-1986-panels.test.ts
 */
export function pooled(
  panels: readonly Weighed[],
  tauSquared: number,
): { readonly estimate: number; readonly se: number; readonly Q: number } {
  const weights = panels.map(({ variance }) => 1 / (variance + tauSquared))
  const total = sum(weights)
  const estimate = sum(panels.map(({ difference }, i) => difference * (weights[i] ?? lost()))) / total
  const Q = sum(panels.map(({ difference }, i) => (difference - estimate) ** 2 * (weights[i] ?? lost())))
  return { estimate, se: 1 / Math.sqrt(total), Q }
}

/**
 * How much do panels vary beyond their own errors?
 *
 *     DerSimonian and Laird: max(0, (Q − (k − 1)) / (Σw − Σw² / Σw)),   w = 1 / v
 *     REML: the τ² ≥ 0 that makes ½ [Σ log w − log Σw − Σ w (d − μ)²] largest,   w = 1 / (v + τ²)
 *
 * @returns τ² in the square of the unit; 0 for a single panel
 *
 * Source   DerSimonian & Laird (1986); Viechtbauer (2005), J. Educ. Behav. Stat. 30, 261–293
 * Checked  test/reference/dersimonian-1986-panels.test.ts
 */
export function betweenPanels(panels: readonly Weighed[], method: TauMethod): number {
  if (panels.length < 2) return 0
  const weights = panels.map(({ variance }) => 1 / variance)
  const total = sum(weights)
  const moment = Math.max(
    0,
    (pooled(panels, 0).Q - (panels.length - 1)) / (total - sum(weights.map((w) => w * w)) / total),
  )
  return method === 'reml' ? mostLikely(panels) : moment
}

/** Scans τ² on a scale of the panels' variances and spread, then halves the valley in which the slope changes sign. */
function mostLikely(panels: readonly Weighed[]): number {
  const differences = panels.map(({ difference }) => difference)
  const smallest = Math.min(...panels.map(({ variance }) => variance))
  const range =
    (Math.max(...differences) - Math.min(...differences)) ** 2 + Math.max(...panels.map(({ variance }) => variance))
  const steps = 400
  const grid = Array.from(
    { length: steps },
    (_, i) => smallest * 1e-6 * ((range * 4) / (smallest * 1e-6)) ** (i / (steps - 1)),
  )
  const tops = [0, ...grid].flatMap((low, i, all) => {
    const high = all[i + 1]
    return high !== undefined && slope(panels, low) > 0 && slope(panels, high) <= 0 ? [bisect(panels, low, high)] : []
  })
  return [0, ...tops].reduce((most, at) => (likelihood(panels, at) > likelihood(panels, most) ? at : most), 0)
}

function bisect(panels: readonly Weighed[], from: number, to: number): number {
  let [low, high] = [from, to]
  for (let step = 0; step < 200 && high - low > 1e-16 * high; step += 1) {
    const middle = (low + high) / 2
    if (middle <= low || middle >= high) break
    if (slope(panels, middle) > 0) low = middle
    else high = middle
  }
  return (low + high) / 2
}

function likelihood(panels: readonly Weighed[], tauSquared: number): number {
  const weights = panels.map(({ variance }) => 1 / (variance + tauSquared))
  return (sum(weights.map(Math.log)) - Math.log(sum(weights)) - pooled(panels, tauSquared).Q) / 2
}

/** Twice the derivative of the restricted log-likelihood. */
function slope(panels: readonly Weighed[], tauSquared: number): number {
  const weights = panels.map(({ variance }) => 1 / (variance + tauSquared))
  const { estimate } = pooled(panels, tauSquared)
  const far = sum(panels.map(({ difference }, i) => ((weights[i] ?? lost()) * (difference - estimate)) ** 2))
  return far - sum(weights) + sum(weights.map((w) => w * w)) / sum(weights)
}

function sum(list: readonly number[]): number {
  return list.reduce((total, x) => total + x, 0)
}
