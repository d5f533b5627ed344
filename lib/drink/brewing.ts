import type { Brew } from './trial'
import {
  USUAL_RETENTION,
  beverageMass,
  immersionExtraction,
  immersionStrength,
  instantStrength,
  percolationExtraction,
  percolationStrength,
} from './brew'
import type { Tally } from './figure'
import { combine, sum, tally } from './figure'

/** A brew worked out. Grams; strength, extraction and `served` are fractions. */
export type Brewed = {
  readonly dose: Tally
  readonly water: Tally
  readonly beverage: Tally
  readonly strength: Tally
  readonly extraction: Tally
  /** Share of the coffee's liquid that reaches the beverage: B/W in immersion, all of it otherwise. */
  readonly served: Tally
}

/** g of water per g of coffee beyond which a ratio is a slip. */
export const MOST_RATIO = 1000
/** g of liquid per g of coffee beyond which a retention is a slip. */
export const MOST_KEPT = 20

const USUAL_EXTRACTION = { immersion: 21, percolation: 20, espresso: 20, dissolved: 20 } as const

const within = (value: number | null, low: number, high: number): number | null =>
  value !== null && value > low && value < high ? value : null

/** What do the grounds keep? The measured figure, else 2 g/g, said so. */
export function retentionOf(brew: Brew): Tally {
  if (brew.retention === null) {
    return tally(USUAL_RETENTION, '', [
      `retention ${USUAL_RETENTION} g per g of coffee (common practice, not measured)`,
    ])
  }
  return tally(brew.retention >= 0 && brew.retention <= MOST_KEPT ? brew.retention : null, 'a retention from 0 to 20')
}

const TOO_LITTLE: Tally = { total: 0, missing: ['water above what the grounds keep'], assumed: [] }

function beverageIn(dose: Tally, water: Tally, retention: Tally): Tally {
  const needed = combine([dose, retention], (d, k) => d * k)
  const enough = water.missing.length > 0 || needed.missing.length > 0 || water.total > needed.total
  return enough ? combine([water, dose, retention], beverageMass) : TOO_LITTLE
}

/** Water and beverage of a brew known by its dose and ratio. */
function byRatio(brew: Brew, dose: Tally): { readonly water: Tally; readonly beverage: Tally } {
  const ratio = tally(within(brew.ratio, 0, MOST_RATIO), 'brew ratio')
  const retention = retentionOf(brew)
  if (brew.ratioKind === 'beverage-out') {
    const beverage = combine([dose, ratio], (d, r) => d * r)
    return { beverage, water: combine([beverage, dose, retention], (b, d, k) => b + k * d) }
  }
  const kind = tally(brew.ratioKind === null ? null : 1, 'kind of brew ratio (water in, or beverage out)')
  const water = combine([dose, ratio, kind], (d, r) => d * r)
  return { water, beverage: beverageIn(dose, water, retention) }
}

/**
 * What beverage does a brew make, and how strong?
 *
 *     by ratio:       W = r·D, B = W − k·D   or   B = r·D, W = B + k·D
 *     as weighed:     W is the liquid put in, B the measured output, else W − k·D
 *     dissolved       W = r·D, B = W + D, t = D/B
 *     immersion       t = E·D/(W + E·D)      all else   t = E·D/B      measured strength comes first
 *
 * @param dose     g of dry coffee
 * @param weighed  null: use the ratio; else the water put in, and the beverage if it was weighed
 *
 * Source   balance of mass and of dissolved solids; Liang, Chan & Ristenpart (2021) for 21 % in immersion
 * Checked  test/unit/drink/brewing.test.ts, test/reference/coffee-brew-examples.test.ts
 * Limits   Where extraction is assumed, strength is only as good as that; the figure says so.
 */
export function brewed(
  brew: Brew,
  dose: Tally,
  weighed: { readonly water: Tally; readonly beverage: number | null } | null,
): Brewed {
  if (brew.brewing === 'dissolved' && weighed === null) return dissolved(brew, dose)
  const { water, beverage } = weighed === null ? byRatio(brew, dose) : asWeighed(brew, dose, weighed)
  const immersed = brew.brewing === 'immersion'
  const served = immersed ? combine([beverage, water], (b, w) => Math.min(1, b / w)) : tally(1, '')
  const measured = within(brew.strengthPercent, 0, 100)
  if (measured !== null) {
    const strength = tally(measured / 100, '')
    const extraction = combine([strength, beverage, water, dose], (t, b, w, d) =>
      immersed ? immersionExtraction(t, w, d) : percolationExtraction(t, b, d),
    )
    return { dose, water, beverage, strength, extraction, served }
  }
  const usual = USUAL_EXTRACTION[brew.brewing]
  const given = within(brew.extractionPercent, 0, 100)
  const extraction =
    given === null
      ? tally(usual / 100, '', [`extraction ${usual} % (not measured)`])
      : tally(given / 100, 'extraction between 0 and 100 %')
  const strength = combine([extraction, dose, water, beverage], (e, d, w, b) =>
    immersed ? immersionStrength(e, d, w) : percolationStrength(e, d, b),
  )
  return { dose, water, beverage, strength, extraction, served }
}

/** Instant coffee: all of it dissolves, nothing is kept, and it weighs in the beverage. */
function dissolved(brew: Brew, dose: Tally): Brewed {
  const ratio = tally(within(brew.ratio, 0, MOST_RATIO), 'brew ratio')
  const kind = tally(brew.ratioKind === null ? null : 1, 'kind of brew ratio (water in, or beverage out)')
  const extra = brew.ratioKind === 'beverage-out' ? 1 : 0
  const water = combine([dose, ratio, kind], (d, r) => (r > extra ? d * (r - extra) : Number.NaN))
  const beverage = sum([dose, water])
  const strength = combine([dose, water], instantStrength)
  return { dose, water, beverage, strength, extraction: tally(1, ''), served: tally(1, '') }
}

function asWeighed(brew: Brew, dose: Tally, weighed: { readonly water: Tally; readonly beverage: number | null }) {
  const water = weighed.water.missing.length > 0 || weighed.water.total > 0 ? weighed.water : TOO_LITTLE
  if (weighed.beverage === null) return { water, beverage: beverageIn(dose, water, retentionOf(brew)) }
  return { water, beverage: tally(within(weighed.beverage, 0, Infinity), 'beverage weighed after brewing') }
}
