import { lost } from '@/lib/base/lost'
import { normalDensity } from './normal'
import { quickNormalLower } from './normal-table'
import { spreadRule } from './scaled-spread'

type Matrix = readonly (readonly number[])[]

/** How much of their variance contrasts may share through the factors: the less, the smoother the integrand. */
const MOST_SHARED = [0.9, 0.97, 0.99]
/** A fit this close is taken as it is: what it leaves over is carried by the first-order term. */
const NEAR = 0.002
const SWEEPS = 4000
const CLOSE = 1e-11
const REACH = 6.5

/**
 * How likely is it that at least one of several correlated t statistics lies further from 0 than q, when their
 * correlations are no products of one loading each?
 *
 *     X_i = Σ_f L_if Z_f + c_i E_i  with two or three factors Z, fitted by least squares off the diagonal;
 *     P = E Π_i P_i(Z) + Σ_{i<j} Δ_ij E[D_i D_j Π_{k≠i,j} P_k],
 *     P_i = P(|X_i| ≤ w | Z),  D_i the difference of the conditional densities at w and −w,
 *     Δ_ij = ρ_ij − Σ_f L_if L_jf what the fit leaves over, usually 0 up to six contrasts (Plackett's derivative)
 *
 * @param correlation  m × m, m ≥ 3, no two contrasts the same
 * @param df           degrees of freedom of the common s, real, > 0; Infinity allowed
 * @returns            the probability as a function of q > 0
 *
 * Source   Plackett (1954), Biometrika 41, 351–360; Harman and Jones (1966), Psychometrika 31, 351–368 (the fit)
 * Checked  test/reference/mvtnorm-many-to-one.test.ts
 * Limits   absolute error about 1e-7 where the fit is exact, else up to 1e-6; three factors take some 50 ms a call
 */
export function fewFactorOutside(correlation: Matrix, df: number): (q: number) => number {
  const { loadings, residual, largest } = bestFit(correlation)
  const arms = loadings.map((row) => ({ row, own: Math.sqrt(1 - row.reduce((sum, x) => sum + x * x, 0)) }))
  const steepest = Math.max(...arms.flatMap(({ row, own }) => row.map((x) => Math.abs(x) / own)))
  const grid = factorGrid(loadings[0]?.length ?? 2, Math.min(0.6, 0.7 / steepest))
  const inverse = Float64Array.from(arms, ({ own }) => 1 / own)
  const weights = Float64Array.from(grid, ({ weight }) => weight)
  // where each arm is shifted to at each node, in its own deviations: does not depend on w
  const shifts = Float64Array.from(
    grid.flatMap(({ z }) => arms.map(({ row, own }) => row.reduce((sum, x, f) => sum + x * (z[f] ?? lost()), 0) / own)),
  )
  const leftOver = largest < CLOSE ? null : residual
  const rule = grid.length > 2000 ? coarser(df) : spreadRule(df)

  return (q) => {
    let inside = 0
    for (const { ratio, weight } of rule) {
      let sum = 0
      for (let g = 0; g < weights.length; g++) {
        sum += (weights[g] ?? lost()) * insideGiven(q * ratio, shifts, g * inverse.length, inverse, leftOver)
      }
      inside += weight * sum
    }
    return Math.min(1, Math.max(0, 1 - inside))
  }
}

/** All contrasts within ±w at one node of the grid, with the first-order term of what the fit leaves over. */
function insideGiven(
  w: number,
  shifts: Float64Array,
  from: number,
  inverse: Float64Array,
  residual: Matrix | null,
): number {
  const m = inverse.length
  let product = 1
  for (let i = 0; i < m; i++) {
    const reach = w * (inverse[i] ?? 1)
    const shift = shifts[from + i] ?? lost()
    product *= quickNormalLower(reach - shift) - quickNormalLower(-reach - shift)
    if (product < 1e-14) return 0
  }
  if (!residual) return product
  const part: number[] = []
  for (let i = 0; i < m; i++) {
    const own = inverse[i] ?? 1
    const shift = shifts[from + i] ?? lost()
    const p = quickNormalLower(w * own - shift) - quickNormalLower(-w * own - shift)
    part.push(((normalDensity(w * own - shift) - normalDensity(w * own + shift)) * own) / p)
  }
  let change = 0
  for (let i = 1; i < m; i++) {
    for (let j = 0; j < i; j++) change += (residual[i]?.[j] ?? lost()) * (part[i] ?? lost()) * (part[j] ?? lost())
  }
  return product * (1 + change)
}

/** Half of the space of the factors (the integrand is even), weights adding to 1. */
function factorGrid(factors: number, step: number): { z: number[]; weight: number }[] {
  const line: { z: number; weight: number }[] = []
  for (let i = -Math.floor(REACH / step); i * step <= REACH; i++) {
    line.push({ z: i * step, weight: step * normalDensity(i * step) })
  }
  let grid = line.filter(({ z }) => z >= 0).map(({ z, weight }) => ({ z: [z], weight: z === 0 ? weight : 2 * weight }))
  for (let f = 1; f < factors; f++) {
    grid = grid.flatMap((node) => line.map(({ z, weight }) => ({ z: [...node.z, z], weight: node.weight * weight })))
  }
  const total = grid.reduce((sum, { weight }) => sum + weight, 0)
  return grid.filter(({ weight }) => weight > 1e-12).map(({ z, weight }) => ({ z, weight: weight / total }))
}

/** The rule over ln(s/σ) at twice the step: here 1e-9 is enough. */
function coarser(df: number) {
  const rule = spreadRule(df, 0.12).sort((a, b) => a.ratio - b.ratio)
  if (rule.length === 1) return rule
  const kept = rule.filter((_, i) => i % 2 === 0)
  const total = kept.reduce((sum, { weight }) => sum + weight, 0)
  return kept.filter(({ weight }) => weight > 1e-12).map(({ ratio, weight }) => ({ ratio, weight: weight / total }))
}

interface Fit {
  readonly loadings: number[][]
  readonly residual: Matrix
  readonly largest: number
}

/** Two factors where they come near enough, with as much of its own left to each contrast as can be; else three. */
function bestFit(correlation: Matrix): Fit {
  let best: Fit | null = null
  for (const factors of correlation.length > 3 ? [2, 3] : [2]) {
    for (const shared of MOST_SHARED) {
      const fit = fitLoadings(correlation, factors, shared)
      if (fit.largest < NEAR) return fit
      if (!best || fit.largest < best.largest) best = fit
    }
  }
  return best ?? fitLoadings(correlation, 2, 0.9)
}

/** Least squares off the diagonal, one row of loadings after the other until nothing is left or moves. */
function fitLoadings(correlation: Matrix, factors: number, mostShared: number): Fit {
  const m = correlation.length
  const loadings = correlation.map((_, i) => [0.7, 0.3 * Math.cos(2.4 * i), 0.3 * Math.sin(2.4 * i)].slice(0, factors))
  const left = () =>
    correlation.map((row, i) => row.map((r, j) => (i === j ? 0 : r - dot(loadings[i] ?? [], loadings[j] ?? []))))
  let largest = Infinity
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (let i = 0; i < m; i++) loadings[i] = bestRow(i, correlation[i] ?? [], loadings, factors, mostShared)
    if (sweep % 50 === 49) {
      const now = Math.max(...left().flat().map(Math.abs))
      if (now < CLOSE || now > 0.999 * largest) break
      largest = now
    }
  }
  const residual = left()
  return { loadings, residual, largest: Math.max(...residual.flat().map(Math.abs)) }
}

function bestRow(
  i: number,
  target: readonly number[],
  loadings: readonly number[][],
  factors: number,
  mostShared: number,
): number[] {
  const normal = Array.from({ length: factors }, () => new Array<number>(factors + 1).fill(0))
  loadings.forEach((other, j) => {
    if (j === i) return
    normal.forEach((row, f) => {
      for (let g = 0; g < factors; g++) row[g] = (row[g] ?? lost()) + (other[f] ?? lost()) * (other[g] ?? lost())
      row[factors] = (row[factors] ?? lost()) + (other[f] ?? lost()) * (target[j] ?? lost())
    })
  })
  const row = solveSmall(normal, factors)
  const shared = dot(row, row)
  return shared > mostShared ? row.map((x) => x * Math.sqrt(mostShared / shared)) : row
}

/** Gauss and Jordan on a positive definite system of two or three, with a ridge that only breaks ties. */
function solveSmall(system: number[][], size: number): number[] {
  for (let p = 0; p < size; p++) {
    const pivot = system[p] ?? []
    const head = (pivot[p] ?? lost()) + 1e-12
    for (let c = 0; c <= size; c++) pivot[c] = (pivot[c] ?? lost()) / head
    for (let r = 0; r < size; r++) {
      if (r === p) continue
      const row = system[r] ?? []
      const times = row[p] ?? lost()
      for (let c = 0; c <= size; c++) row[c] = (row[c] ?? lost()) - times * (pivot[c] ?? lost())
    }
  }
  return system.map((row) => row[size] ?? lost())
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (let f = 0; f < a.length; f++) sum += (a[f] ?? lost()) * (b[f] ?? lost())
  return sum
}
