import { lost } from '@/lib/base/lost'
import { manyToOneOutside, manyToOneQuantile } from '../distribution/many-to-one'
import { normalDensity } from '../distribution/normal'
import { quickNormalLower } from '../distribution/normal-table'
import { oneFactorLoadings } from '../distribution/one-factor'
import { spreadRule } from '../distribution/scaled-spread'
import { solveBetween } from '../distribution/solve'
import { studentQuantile } from '../distribution/student'

type Correlation = readonly (readonly number[])[]

/** Correlations this near to products are reached by a series of second order, error below 5e-6. */
const NEAR = 0.06
const REACH = 8
const SWEEPS = 100

/**
 * How likely is it that at least one comparison with a control lies further from 0 than q, whatever their correlations?
 *
 * Products of one loading each are exact (`manyToOneOutside`). Incomplete panels come close to products and are reached
 * from the nearest ones by Plackett's derivative, ∂φ/∂ρᵢⱼ = ∂²φ/∂xᵢ∂xⱼ, to second order:
 *
 *     P = E Π pᵢ (1 + ½ aᵀΔa + ⅛ [(aᵀΔa)² + 4 Σ cᵢ (Δa)ᵢ² + 2 Σ Δᵢⱼ² cᵢ cⱼ]),   Δ = ρ − λλᵀ off the diagonal
 *
 * pᵢ is the chance that comparison i stays within ±w given the shared factor, aᵢ = pᵢ'/pᵢ and cᵢ = pᵢ''/pᵢ − aᵢ² its
 * logarithmic derivatives in the place of the box; w = q s/σ is averaged over s. Anything further off goes by more factors.
 *
 * @param q            t scale, ≥ 0
 * @param df           degrees of freedom of the common s, > 0
 * @param correlation  of the comparisons, m × m, m from 1 to 11
 *
 * Source   Plackett (1954), Biometrika 41, 351–360; Dunnett (1955), J. Am. Stat. Assoc. 50, 1096–1121.
 * Checked  test/reference/acceptance-r-cases.test.ts; test/unit/stats/liking/control-reach.test.ts
 * Limits   absolute error below 5e-6 for correlations within 0.06 of products
 */
export function controlOutside(q: number, df: number, correlation: Correlation): number {
  const series = nearProducts(correlation)
  return series ? outside(series, q, df) : manyToOneOutside(q, df, correlation)
}

/**
 * How many standard errors must an interval reach so that all comparisons with a control hold at once?
 *
 * @param level  coverage of all together, 0 < level < 1
 * @returns      the q with `controlOutside(q)` = 1 − level
 *
 * Source   Dunnett (1955), J. Am. Stat. Assoc. 50, 1096–1121.
 * Checked  test/unit/stats/liking/control-reach.test.ts
 */
export function controlReach(level: number, df: number, correlation: Correlation): number {
  const series = nearProducts(correlation)
  if (!series) return manyToOneQuantile(level, df, correlation)
  const alone = studentQuantile((1 + level) / 2, df)
  const bonferroni = studentQuantile(1 - (1 - level) / (2 * correlation.length), df)
  const target = Math.log(1 - level)
  return solveBetween((q) => target - Math.log(outside(series, q, df)), alone * 0.999, bonferroni * 1.001, 1e-12)
}

interface Series {
  readonly loadings: readonly number[]
  readonly left: Correlation
}

/** Null where products are exact, too few comparisons need a series, or it would not be near enough. */
function nearProducts(correlation: Correlation): Series | null {
  if (correlation.length < 4 || oneFactorLoadings(correlation)) return null
  const loadings = nearestLoadings(correlation)
  const left = correlation.map((row, i) =>
    row.map((r, j) => (i === j ? 0 : r - (loadings[i] ?? lost()) * (loadings[j] ?? lost()))),
  )
  const largest = Math.max(...left.flat().map(Math.abs))
  return largest <= NEAR && Math.max(...loadings.map(Math.abs)) <= 0.95 ? { loadings, left } : null
}

/** Least squares off the diagonal, one loading after the other. */
function nearestLoadings(correlation: Correlation): number[] {
  const loadings = correlation.map((row) => {
    const mean = row.reduce((sum, r) => sum + r, -1) / (row.length - 1)
    return Math.sqrt(Math.max(0.01, mean))
  })
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    correlation.forEach((row, i) => {
      let [along, squares] = [0, 0]
      row.forEach((r, j) => {
        if (j === i) return
        along += r * (loadings[j] ?? lost())
        squares += (loadings[j] ?? lost()) ** 2
      })
      loadings[i] = along / squares
    })
  }
  return loadings
}

function outside({ loadings, left }: Series, q: number, df: number): number {
  const arms = loadings.map((loading) => ({ loading, own: Math.sqrt((1 - loading) * (1 + loading)) }))
  const steepest = Math.max(...arms.map(({ loading, own }) => Math.abs(loading) / own))
  const step = Math.min(0.4, 0.6 / steepest)
  let inside = 0
  for (const { ratio, weight } of spreadRule(df)) {
    if (weight < 1e-12) continue
    for (let z = 0; z <= REACH; z += step) {
      const share = (z === 0 ? 1 : 2) * step * normalDensity(z)
      inside += weight * share * insideGiven(q * ratio, z, arms, left)
    }
  }
  return Math.min(1, Math.max(0, 1 - inside))
}

function insideGiven(
  w: number,
  z: number,
  arms: readonly { readonly loading: number; readonly own: number }[],
  left: Correlation,
): number {
  let product = 1
  const slope: number[] = []
  const bend: number[] = []
  for (const { loading, own } of arms) {
    const [high, low] = [(w - loading * z) / own, (-w - loading * z) / own]
    const p = quickNormalLower(high) - quickNormalLower(low)
    product *= p
    if (product < 1e-14) return 0
    const [above, below] = [normalDensity(high), normalDensity(low)]
    const a = (above - below) / own / p
    slope.push(a)
    bend.push((low * below - high * above) / (own * own) / p - a * a)
  }
  let [first, bent, squares] = [0, 0, 0]
  for (let i = 0; i < slope.length; i++) {
    let pull = 0
    for (let j = 0; j < slope.length; j++) {
      const rest = left[i]?.[j] ?? lost()
      pull += rest * (slope[j] ?? lost())
      squares += rest * rest * (bend[i] ?? lost()) * (bend[j] ?? lost())
    }
    first += pull * (slope[i] ?? lost())
    bent += (bend[i] ?? lost()) * pull * pull
  }
  return product * (1 + first / 2 + (first * first + 4 * bent + 2 * squares) / 8)
}
