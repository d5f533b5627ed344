import type { AllergenListId, AllergenMark, AllergenUnion } from './allergen'
import type { Figure, Problem, RangeFigure } from './figure'

/** What a line is, as the page groups it. */
export type LineKind = 'coffee' | 'sweetener' | 'milk' | 'water' | 'ice' | 'other'

/**
 * How it enters the glass. `grounds`: dry coffee that is brewed, only its beverage goes in (see `TrialBuild.brew`).
 * `powder`: dry and dissolving whole (sugar, instant coffee). `ice` melts. All else is `liquid`.
 */
export type LineForm = 'liquid' | 'powder' | 'grounds' | 'ice'

/** How water meets coffee: the two extraction formulas are not the same, espresso counts by beverage, instant dissolves. */
export type Brewing = 'immersion' | 'percolation' | 'espresso' | 'dissolved'

/** A brew ratio says which: coffee to water poured in, or dose to beverage that came out. */
export type RatioKind = 'water-in' | 'beverage-out'

/** Per 100 g of the ingredient as bought; null = not known. Grams, but energy in kcal and caffeine in mg. */
export type Composition = {
  readonly water: number | null
  readonly sugars: number | null
  /** Free (added) sugars: all sugar of syrup or honey, the added sucrose of condensed milk, none of milk's lactose. */
  readonly freeSugars: number | null
  readonly fat: number | null
  readonly protein: number | null
  readonly energyKcal: number | null
  /** Coffee solids; of a coffee only. Null in grounds (what is extracted depends on the brew). */
  readonly coffeeSolids: number | null
  /** mg; of dry grounds the whole content, of a liquid or powder what is in it. 0 where there is none. */
  readonly caffeineLow: number | null
  readonly caffeineHigh: number | null
  /** Grams of sucrose that taste as sweet as 100 g of this. */
  readonly sweetness: number | null
}

/**
 * The amount as the person typed it, kept beside the grams. `density` g/ml was used if the unit is a volume, `partGrams` is
 * what one part weighs if it is a part.
 */
export type TypedAmount = {
  readonly amount: number
  readonly unit: string
  readonly density: number | null
  readonly partGrams?: number | undefined
}

/** One ingredient, or one preparation batch, poured into the glass or into another preparation. */
export type BuildLine = {
  /** Stable within the trial; the page uses it to find the line again. */
  readonly key: string
  readonly name: string
  readonly kind: LineKind
  readonly form: LineForm
  /** What the sheet names here, where the cost level it was made at used this instead; else null. */
  readonly insteadOf: string | null
  /** What it is there for, in the café's words ("sweetener", "milk"); used to pair lines of two trials. */
  readonly role: string
  readonly targetGrams: number
  readonly weighedGrams: number | null
  /** ± grams allowed at the scale; null = 2 %, at least one division of the scale it is weighed on. */
  readonly toleranceGrams: number | null
  readonly typed: TypedAmount | null
  /** Setting of the grinder, in the café's words; of grounds only. */
  readonly grind: string | null
  /** °C when poured; null = the trial's coffee or ice temperature, else a stated assumption. */
  readonly temperature: number | null
  /** g/ml as it takes room in the glass. Null is asked for where a volume is needed. */
  readonly density: number | null
  /** The density is the usual one of its like and nobody measured it. Left out: it is as entered. */
  readonly densityIsAssumed?: boolean
  /** Currency per gram as bought and usable; null = no price. Ignored when `preparation` is given. */
  readonly costPerGram: number | null
  readonly composition: Composition | null
  readonly allergens: Readonly<Record<string, AllergenMark>>
  /** True when someone read the label (or the café vouches for water and ice): only then does silence mean "not named". */
  readonly labelRead: boolean
  /** % by volume, as the label says; 0: it says it has none. Left out: not stated. */
  readonly alcoholPercent?: number | undefined
  /** Of an infusion's input: taken out again. It gives its taste and keeps back liquid. */
  readonly strainedOut?: boolean | undefined
  /** Given: the line is a batch, and composition, cost and allergens come from its inputs. */
  readonly preparation: Preparation | null
  /** The sheet names the preparation: whichever batch of it goes first is poured, and this one stands for it. */
  readonly anyBatch?: boolean | undefined
}

/** How a brew is made. Null fields are computed or assumed, and said so. */
export type Brew = {
  readonly method: string
  readonly brewing: Brewing
  readonly ratioKind: RatioKind | null
  /** Grams of water (or beverage) per gram of coffee. */
  readonly ratio: number | null
  /** g of liquid kept per g of dry coffee; null = 2, assumed. */
  readonly retention: number | null
  /** % of the dose dissolved; null = 21 immersion, 20 otherwise, assumed. */
  readonly extractionPercent: number | null
  /** % dissolved solids measured in the beverage; overrides extraction. */
  readonly strengthPercent: number | null
  /** °C of the water when it meets the coffee, and s until they part; nothing is computed from either. */
  readonly waterTemperature: number | null
  readonly seconds: number | null
}

/** One batch of a house-made syrup, brew or mix. */
export type Preparation = {
  readonly name: string
  readonly kind: 'syrup' | 'brew' | 'infusion' | 'mix'
  readonly batch: string
  readonly inputs: readonly BuildLine[]
  /** Measured. Null = not weighed yet: then only a brew with its retention can be computed, all else is not known. */
  readonly outputGrams: number | null
  readonly brixMeasured: number | null
  readonly densityMeasured: number | null
  readonly brew: Brew | null
  readonly storageTemperature: number | null
  /** Infusion: g of liquid that a gram of what is strained out keeps back; counts while no output is weighed. */
  readonly retention?: number | null | undefined
}

/** The glass sold: volume to the brim, and to the fill line if it has one. */
export type Vessel = { readonly name: string; readonly brimMl: number; readonly fillMl: number | null }

/** Money of one drink, in the café's currency (1.2 = one and a fifth), fractions as 0.25. */
export type MoneySettings = {
  readonly currency: string
  readonly wasteFraction: number | null
  readonly packagingCost: number | null
  readonly targetCostFraction: number | null
  readonly taxFraction: number | null
  /** What the guest pays, tax included. */
  readonly menuPrice: number | null
  readonly fixedCost: number | null
}

/** Where the glass stands: warms the ice. Null fields: 25 °C and 0.35 W/K, common practice. */
export type Room = { readonly temperature: number | null; readonly heatLeak: number | null }

/**
 * What was, or may have been, in the glass and stands on no line of the sheet. It counts for allergens, never for figures.
 * `used`: it was poured, while the sheet kept on the day names another. `not-said`: a cost level would use it, and nobody
 * said at which level the trial was made. `other-batch`: the sheet names a preparation, and another day this batch of it is
 * poured, or one made by its formula.
 */
export type BesideLine = {
  readonly line: BuildLine
  readonly insteadOf: string
  readonly level: string | null
  readonly why: 'used' | 'not-said' | 'other-batch'
}

/** A whole trial, as pure input. The page keeps one in memory and recomputes as the person types. */
export type TrialBuild = {
  readonly name: string
  /** Brew of the `grounds` lines poured straight into this glass; null when coffee comes from a preparation or a bottle. */
  readonly brew: Brew | null
  readonly coffeeTemperature: number | null
  readonly iceTemperature: number | null
  readonly vessel: Vessel | null
  /** The cost level it was made at, as the café names it; null when none was said. */
  readonly level: string | null
  readonly lines: readonly BuildLine[]
  readonly beside: readonly BesideLine[]
  readonly money: MoneySettings
  readonly room: Room | null
  /** Which allergen list counts here. */
  readonly allergenList: AllergenListId
}

/** What one line brings. */
export type LineFigures = {
  readonly key: string
  readonly name: string
  /** Grams that count: weighed if weighed, else the target. For grounds, the dose. */
  readonly grams: number
  /** Grams that reach the glass (beverage for grounds). */
  readonly inGlass: Figure
  readonly volume: Figure
  readonly sugars: Figure
  readonly cost: Figure
  /** Weighed less target, and whether that is within tolerance; null until weighed. */
  readonly offTarget: { readonly grams: number; readonly within: boolean } | null
}

/** Everything the page shows for a trial, recomputed as one types. */
export type BuildFigures = {
  readonly lines: readonly LineFigures[]
  readonly brew: { readonly beverage: Figure; readonly strength: Figure; readonly extraction: Figure } | null
  readonly totalMass: Figure
  /** Worst case, all ice under: the moment of building. */
  readonly volume: Figure
  readonly fit: 'fits' | 'over-fill-line' | 'over-brim' | 'not-known'
  readonly roomToBrim: Figure
  readonly roomToFillLine: Figure | null
  readonly iceMelted: Figure
  readonly temperature: Figure
  readonly dilution: readonly { readonly minutes: number; readonly meltwater: Figure; readonly coffeeSolids: Figure }[]
  readonly solidsBeforeMelt: Figure
  readonly solidsAfterMelt: Figure
  readonly sugars: Figure
  readonly freeSugars: Figure
  readonly sugarSources: readonly { readonly name: string; readonly grams: number; readonly free: number | null }[]
  readonly shares: { readonly who: Figure; readonly whoLower: Figure; readonly fda: Figure }
  readonly sweetness: Figure
  readonly fat: Figure
  readonly protein: Figure
  readonly energy: Figure
  readonly caffeine: RangeFigure
  readonly allergens: AllergenUnion
  readonly cost: CostFigures
  readonly cautions: readonly string[]
  readonly problems: readonly Problem[]
}

/** Money of one glass. */
export type CostFigures = {
  readonly ingredients: Figure
  readonly waste: Figure
  readonly packaging: Figure
  readonly perGlass: Figure
  readonly netPrice: Figure
  readonly costShare: Figure
  readonly contribution: Figure
  readonly breakEven: Figure
  readonly priceForTargetNet: Figure
  readonly priceForTargetMenu: Figure
}
