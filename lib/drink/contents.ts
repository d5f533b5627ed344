import type { AllergenPart } from './allergen'
import type { Brew, BuildLine, Composition } from './trial'
import { brewed } from './brewing'
import { CAFFEINE_RELEASE, caffeineOfDose } from './caffeine'
import type { Tally } from './figure'
import { NOTHING, combine, sum, tally, times } from './figure'

/** The amounts that add up over a drink. Grams, but energy in kcal, caffeine in mg, volume in ml, cost in currency. */
export const MEASURES = [
  'grams',
  'volume',
  'water',
  'sugars',
  'freeSugars',
  'fat',
  'protein',
  'energy',
  'coffeeSolids',
  'caffeineLow',
  'caffeineHigh',
  'sweetness',
  'cost',
] as const

/** One of the amounts that add up. */
export type Measure = (typeof MEASURES)[number]

/** Sugar from one ingredient, however deep in the tree. */
export type SugarSource = { readonly name: string; readonly sugars: Tally; readonly free: Tally }

/** What something brings into a glass or pot. */
export type Contents = Readonly<Record<Measure, Tally>> & {
  readonly sources: readonly SugarSource[]
  readonly parts: readonly AllergenPart[]
}

/** Contents whose every measure comes from one rule. */
export function contentsBy(
  rule: (measure: Measure) => Tally,
  sources: readonly SugarSource[],
  parts: readonly AllergenPart[],
): Contents {
  // Written out: this is made for every line at every keystroke, and a literal is many times quicker than a loop.
  return {
    grams: rule('grams'),
    volume: rule('volume'),
    water: rule('water'),
    sugars: rule('sugars'),
    freeSugars: rule('freeSugars'),
    fat: rule('fat'),
    protein: rule('protein'),
    energy: rule('energy'),
    coffeeSolids: rule('coffeeSolids'),
    caffeineLow: rule('caffeineLow'),
    caffeineHigh: rule('caffeineHigh'),
    sweetness: rule('sweetness'),
    cost: rule('cost'),
    sources,
    parts,
  }
}

/** What do several things bring together? Σ of each measure; a source or a part that is poured twice is named once. */
export function together(all: readonly Contents[]): Contents {
  return contentsBy(
    (measure) => sum(all.map((one) => one[measure])),
    sourcesByName(all.flatMap((one) => one.sources)),
    [...new Set(all.flatMap((one) => one.parts))],
  )
}

/** Known and unknown sugar of one name stay apart: what is known of it is still shown. */
function sourcesByName(sources: readonly SugarSource[]): readonly SugarSource[] {
  const byName = new Map<string, SugarSource>()
  for (const source of sources) {
    const { name, sugars, free } = source
    const key = `${sugars.missing.length === 0} ${free.missing.length === 0} ${name}`
    const before = byName.get(key)
    byName.set(key, before ? { name, sugars: sum([before.sugars, sugars]), free: sum([before.free, free]) } : source)
  }
  return [...byName.values()]
}

/**
 * What does a share of something bring? Every measure times the share, of one that is not wholly known what is known of it;
 * allergens do not dilute.
 */
export function shareOf(all: Contents, share: Tally): Contents {
  const take = (part: Tally) =>
    part.missing.length > 0 && share.missing.length === 0
      ? times(part, share.total)
      : combine([part, share], (amount, factor) => amount * factor)
  return contentsBy(
    (measure) => take(all[measure]),
    all.sources.map(({ name, sugars, free }) => ({ name, sugars: take(sugars), free: take(free) })),
    all.parts,
  )
}

/** A tonne: no café weighs more, so more is a slip of the unit. */
export const MOST_GRAMS = 1e6

/** Which grams count: weighed if weighed, else the target. Not above zero is missing, never zero. */
export function gramsOfLine(line: BuildLine): Tally {
  const grams = line.weighedGrams ?? line.targetGrams
  return tally(grams > 0 && grams <= MOST_GRAMS ? grams : null, `amount of ${line.name} above zero`)
}

const WATER: Composition = {
  water: 100,
  sugars: 0,
  freeSugars: 0,
  fat: 0,
  protein: 0,
  energyKcal: 0,
  coffeeSolids: 0,
  caffeineLow: 0,
  caffeineHigh: 0,
  sweetness: 0,
}

// What null means differs by kind: a syrup has no caffeine to ask about, a cocoa may.
const NO_CAFFEINE: ReadonlySet<string> = new Set(['sweetener', 'milk', 'water', 'ice'])

/** Most caffeine per 100 g that an ingredient may hold, mg: as stated, none where its kind holds none, null where nobody knows. */
export function mostCaffeineOf({ kind, composition }: Pick<BuildLine, 'kind' | 'composition'>): number | null {
  return composition?.caffeineHigh ?? (NO_CAFFEINE.has(kind) ? 0 : null)
}

/** Sugars per 100 g of an ingredient: none in water, ice and dry grounds; null where nobody knows. */
export function sugarsOf({ kind, form, composition }: Pick<BuildLine, 'kind' | 'form' | 'composition'>): number | null {
  return composition?.sugars ?? (kind === 'water' || kind === 'ice' || form === 'grounds' ? 0 : null)
}

const LACTOSE_SWEETNESS = 0.16
const SUCROSE_CRYSTAL = 1.587
const WATER_20 = 0.9982

/** g/ml; null when none was given, and when what was given cannot be. */
function densityGiven({ density }: BuildLine): number | null {
  return density !== null && density > 0 ? density : null
}

function densityOf(line: BuildLine): Tally {
  const given = densityGiven(line)
  if (given !== null) return tally(given, '')
  if (line.kind === 'water' || line.form === 'ice') return tally(WATER_20, '')
  if (line.form === 'powder') {
    return tally(SUCROSE_CRYSTAL, '', [`${line.name} takes room like sugar crystals, 1.587 g/ml`])
  }
  return tally(null, `density of ${line.name}`)
}

function sweetnessOf(line: BuildLine, composition: Composition): Tally {
  if (composition.sweetness !== null && composition.sweetness >= 0) return tally(composition.sweetness, '')
  const { sugars: per } = composition
  const sugars = tally(per !== null && per >= 0 && per <= 100 ? per : null, `sugars of ${line.name}`)
  if (composition.sugars === 0) return sugars
  const like = line.kind === 'milk' ? 'lactose' : 'sucrose'
  const factor = line.kind === 'milk' ? LACTOSE_SWEETNESS : 1
  return times({ ...sugars, assumed: [`${line.name} is as sweet as its sugars were ${like}`] }, factor)
}

function costOf(line: BuildLine): Tally {
  if (line.costPerGram === null && (line.kind === 'water' || line.kind === 'ice')) {
    return tally(0, '', [`${line.name} costs nothing (no price entered)`])
  }
  const cost = line.costPerGram
  return tally(cost !== null && cost >= 0 ? cost : null, `price of ${line.name}`)
}

/**
 * What does an ingredient bring that goes in as it is?
 *
 *     measure = grams · per 100 g / 100
 *
 * @param line  not grounds, not a preparation
 *
 * Source   composition kept with the ingredient
 * Checked  test/unit/drink/contents.test.ts
 */
export function ingredientContents(line: BuildLine): Contents {
  const grams = gramsOfLine(line)
  const plain = line.kind === 'water' || line.kind === 'ice'
  const per100 = line.composition ?? (plain ? WATER : null)
  // What cannot be (negative, or more than 100 g in 100 g) is asked for again, not computed with.
  const ask = (value: number | null | undefined, what: string, most = 100) =>
    tally(value != null && value >= 0 && value <= most ? value : null, `${what} of ${line.name}`)
  const free = per100?.freeSugars ?? (line.kind === 'sweetener' || per100?.sugars === 0 ? per100?.sugars : null)
  const caffeine = (value: number | null | undefined) =>
    ask(value ?? (NO_CAFFEINE.has(line.kind) ? 0 : null), 'caffeine', 1e5)
  const perHundred: Readonly<Record<Exclude<Measure, 'grams' | 'volume' | 'cost'>, Tally>> = {
    water: ask(per100?.water, 'water content'),
    sugars: ask(per100?.sugars, 'sugars'),
    freeSugars: ask(free, 'free sugars'),
    fat: ask(per100?.fat, 'fat'),
    protein: ask(per100?.protein, 'protein'),
    energy: ask(per100?.energyKcal, 'energy', 1e4),
    coffeeSolids: ask(per100?.coffeeSolids ?? (line.kind === 'coffee' ? null : 0), 'coffee solids'),
    caffeineLow: caffeine(per100?.caffeineLow),
    caffeineHigh: caffeine(per100?.caffeineHigh),
    sweetness: per100 ? sweetnessOf(line, per100) : ask(null, 'sweetness'),
  }
  const rule = (measure: Measure): Tally => {
    if (measure === 'grams') return grams
    if (measure === 'volume') return combine([grams, densityOf(line)], (mass, density) => mass / density)
    if (measure === 'cost') return combine([grams, costOf(line)], (mass, cost) => mass * cost)
    return combine([grams, perHundred[measure]], (mass, per) => (mass * per) / 100)
  }
  const sources = per100?.sugars === 0 ? [] : [{ name: line.name, sugars: rule('sugars'), free: rule('freeSugars') }]
  return contentsBy(rule, sources, [{ name: line.name, marks: line.allergens, labelRead: line.labelRead }])
}

// USDA SR per 100 g: coffee brewed (171890) and espresso (171891).
const BREWED = { energy: 1, fat: 0.02, protein: 0.12 } as const
const ESPRESSO = { energy: 9, fat: 0.18, protein: 0.12 } as const

/**
 * What do dry grounds bring through their brew?
 *
 *     grams = beverage;  coffee solids = t·B;  cost of the whole dose
 *     caffeine from D · low end · release · served − 30 % to D · high end · release · served + 30 %
 *
 * @param line     grounds; caffeine of its composition is that of the dry coffee, per 100 g
 * @param brew     null asks for it
 * @param weighed  as `brewed`; null works by ratio
 *
 * Source   brew formulas; USDA SR for energy, fat and protein of the beverage
 * Checked  test/unit/drink/contents.test.ts
 */
export function groundsContents(
  line: BuildLine,
  brew: Brew | null,
  weighed: Parameters<typeof brewed>[2] = null,
): Contents {
  const part = { name: line.name, marks: line.allergens, labelRead: line.labelRead }
  const dose = gramsOfLine(line)
  const cost = combine([dose, costOf(line)], (mass, each) => mass * each)
  if (brew === null) {
    const asked = tally(null, `how ${line.name} is brewed`)
    return contentsBy((measure) => (measure === 'cost' ? cost : asked), [], [part])
  }
  const { beverage, strength, served } = brewed(brew, dose, weighed)
  const release = CAFFEINE_RELEASE[brew.brewing]
  const caffeine = (end: 'low' | 'high', per: number | null | undefined) =>
    combine([dose, tally(per, `caffeine of ${line.name}`), served], (d, mg, s) => {
      const content = mg / 100_000
      return content >= 0 && content <= 1 ? caffeineOfDose(d, content, release, s)[end] : Number.NaN
    })
  const table = brew.brewing === 'espresso' ? ESPRESSO : BREWED
  const per100 = (value: number) => times(beverage, value / 100)
  const solids = combine([strength, beverage], (t, b) => t * b)
  const byMeasure: Readonly<Record<Measure, Tally>> = {
    grams: beverage,
    volume: combine([beverage, tally(densityGiven(line) ?? 1, '')], (b, density) => b / density),
    water: combine([beverage, solids], (b, s) => b - s),
    sugars: NOTHING,
    freeSugars: NOTHING,
    sweetness: NOTHING,
    fat: per100(table.fat),
    protein: per100(table.protein),
    energy: per100(table.energy),
    coffeeSolids: solids,
    caffeineLow: caffeine('low', line.composition?.caffeineLow),
    caffeineHigh: caffeine('high', line.composition?.caffeineHigh),
    cost,
  }
  return contentsBy((measure) => byMeasure[measure], [], [part])
}
