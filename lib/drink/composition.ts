import type { Composition, LineForm, LineKind } from './trial'

/** A published ingredient to start from: composition per 100 g, density, and where the figures come from. */
export type StarterIngredient = {
  readonly id: string
  readonly name: string
  readonly kind: LineKind
  readonly form: LineForm
  readonly composition: Composition
  /** g/ml as it takes room in a drink; null where the table gives none. */
  readonly density: number | null
  /** nobody printed it: the usual one of its like, until 100 ml are weighed */
  readonly densityIsAssumed: boolean
  /** g/ml as spooned or poured dry, to read spoons and measuring vessels; not its density in a drink. */
  readonly bulkDensity: number | null
  /** What this food is by its name, by allergen id; a label still has to be read. */
  readonly carries: readonly string[]
  readonly source: string
  readonly edition: string
}

const SR = 'USDA National Nutrient Database for Standard Reference'
const EDITION = 'SR26-era tables, values per 100 g; density from household weights'

const LACTOSE = 0.16

/** The table's weight of a cup of it, 262 g, would be 1.107 g/ml, which no such drink weighs. */
const ASSUMED: ReadonlySet<string> = new Set(['almond-drink'])

type Row = readonly [water: number, kcal: number, protein: number, fat: number, sugars: number]

function dairy(id: string, name: string, ndb: string, row: Row, density: number, addedSugar = 0): StarterIngredient {
  const [water, energyKcal, protein, fat, sugars] = row
  const sweetness = (sugars - addedSugar) * LACTOSE + addedSugar
  return {
    id,
    name,
    kind: 'milk',
    form: 'liquid',
    composition: {
      water,
      sugars,
      freeSugars: addedSugar,
      fat,
      protein,
      energyKcal,
      coffeeSolids: 0,
      caffeineLow: 0,
      caffeineHigh: 0,
      sweetness,
    },
    density,
    densityIsAssumed: false,
    bulkDensity: null,
    carries: ['milk'],
    source: `${SR}, ${ndb.length === 5 ? 'NDB' : 'FDC'} ${ndb}`,
    edition: EDITION,
  }
}

function plant(
  id: string,
  name: string,
  ndb: string,
  row: Row,
  density: number,
  carries: readonly string[],
  free: number | null,
) {
  const base = dairy(id, name, ndb, row, density)
  return { ...base, carries, composition: { ...base.composition, freeSugars: free, sweetness: null } }
}

/** What is printed of a plant drink, per 100 g; null where nothing is, and then nothing is guessed. */
interface Printed {
  readonly energyKcal: number | null
  readonly protein: number | null
  readonly fat: number | null
  readonly sugars: number | null
}

/** A plant drink of which a table says a part only, and no weight of a measure: its density is the usual one, and says so. */
function partlyKnown(
  id: string,
  name: string,
  printed: Printed,
  density: number,
  carries: readonly string[],
  from: { readonly source: string; readonly edition: string },
): StarterIngredient {
  const base = plant(id, name, 'none', [0, 0, 0, 0, 0], density, carries, null)
  return { ...base, ...from, densityIsAssumed: true, composition: { ...base.composition, ...printed, water: null } }
}

const NOTHING_PRINTED: Printed = { energyKcal: null, protein: null, fat: null, sugars: null }

/** Figures that were read, the sugars among them only remembered. */
const SUGARS_FROM_MEMORY = 'values per 100 g, sugars from memory; density assumed'

function sweetener(
  id: string,
  name: string,
  ndb: string,
  row: Row,
  form: LineForm,
  density: number | null,
  bulkDensity: number | null,
  sweetness: number | null,
): StarterIngredient {
  const base = dairy(id, name, ndb, row, 1)
  const composition = { ...base.composition, freeSugars: row[4], sweetness }
  return { ...base, kind: 'sweetener', form, composition, density, bulkDensity, carries: [] }
}

function coffee(
  id: string,
  name: string,
  ndb: string,
  row: Row,
  form: LineForm,
  solids: number | null,
  mg: Mg,
): StarterIngredient {
  const base = dairy(id, name, ndb, row, 1)
  const [caffeineLow, caffeineHigh] = mg
  const composition = { ...base.composition, sweetness: 0, coffeeSolids: solids, caffeineLow, caffeineHigh }
  return { ...base, kind: 'coffee', form, composition, density: form === 'liquid' ? 1 : null, carries: [] }
}

type Mg = readonly [low: number, high: number]

const CAFFEINE_MEMORY = '; caffeine from memory'

/**
 * Which ingredients can a café start from?
 *
 * Source   USDA SR tables (each row names its number); condensed milk's split of 44 g added sucrose and 10.4 g lactose,
 *          caffeine of table coffees, and the content of roast coffee are from memory or estimates and say so
 * Checked  test/reference/usda-sr-composition.test.ts
 * Limits   The label in the hand wins. Sweetness of milk counts lactose at 0.16; coconut, oat and almond drinks vary most, and
 *          the densities of four of them are assumed: common practice, no source.
 */
export const STARTERS: readonly StarterIngredient[] = [
  dairy('whole-milk', 'Whole milk, 3.25 % fat', '01077', [88.13, 61, 3.15, 3.25, 5.05], 1.031),
  dairy('reduced-fat-milk', 'Reduced-fat milk, 2 %', '172205', [89.21, 50, 3.3, 1.98, 5.06], 1.03),
  dairy('skim-milk', 'Skim milk', '173432', [90.84, 34, 3.37, 0.08, 5.09], 1.035),
  dairy('half-and-half', 'Half-and-half', '01049', [80.57, 131, 3.13, 11.5, 4.13], 1.021),
  dairy('light-cream', 'Light cream', '170857', [73.75, 195, 2.7, 19.31, 3.66], 1.01),
  dairy('heavy-cream', 'Heavy cream', '170859', [57.71, 345, 2.05, 37, 2.79], 1.006),
  dairy('evaporated-milk', 'Evaporated milk, whole', '01153', [74.04, 134, 6.81, 7.56, 10.04], 1.065),
  dairy('evaporated-skim-milk', 'Evaporated milk, nonfat', '01097', [79.4, 78, 7.55, 0.2, 11.35], 1.08),
  dairy('condensed-milk', 'Sweetened condensed milk', '01095', [27.16, 321, 7.91, 8.7, 54.4], 1.292, 44),
  plant('soy-drink', 'Soy drink', '16139', [90.36, 43, 2.6, 1.47, 3.65], 1.035, ['soybeans'], null),
  plant('rice-drink', 'Rice drink, unsweetened', '14639', [89.28, 47, 0.28, 0.97, 5.28], 1.014, [], null),
  plant(
    'almond-drink',
    'Almond drink, sweet vanilla',
    '14016',
    [91.8, 38, 0.42, 1.04, 6.25],
    1.01,
    ['tree-nuts'],
    null,
  ),
  partlyKnown(
    'oat-drink',
    'Oat drink, unsweetened',
    { energyKcal: 48, protein: 0.8, fat: 2.8, sugars: 2.1 },
    1.02,
    ['gluten-cereals'],
    { source: 'USDA FoodData Central, Foundation Foods, FDC 2257046', edition: SUGARS_FROM_MEMORY },
  ),
  partlyKnown(
    'soy-drink-unsweetened',
    'Soy drink, unsweetened',
    { energyKcal: 33, protein: 2.9, fat: 1.6, sugars: 0.4 },
    1.03,
    ['soybeans'],
    { source: `${SR}, FDC 175215`, edition: SUGARS_FROM_MEMORY },
  ),
  partlyKnown(
    'almond-drink-unsweetened',
    'Almond drink, unsweetened',
    // Protein is printed as 0.4 in one table and 0.6 in another.
    { energyKcal: 15, protein: null, fat: 1.1, sugars: 0.8 },
    1.01,
    ['tree-nuts'],
    { source: `${SR}, FDC 174832`, edition: SUGARS_FROM_MEMORY },
  ),
  partlyKnown('coconut-drink', 'Coconut drink', NOTHING_PRINTED, 1.01, [], {
    source: 'No table read gives it: its label does',
    edition: 'density assumed',
  }),
  plant('coconut-milk', 'Coconut milk, canned', '12118', [72.88, 197, 2.02, 21.33, 3.3], 0.955, [], 0),
  sweetener('white-sugar', 'White sugar', '19335', [0.02, 387, 0, 0, 99.8], 'powder', null, 0.85, 99.8),
  sweetener(
    'brown-sugar',
    'Brown sugar',
    '19334',
    [1.34, 380, 0.12, 0, 97.02],
    'powder',
    null,
    4.6 / 4.92892159375,
    97.02,
  ),
  sweetener('honey', 'Honey', '19296', [17.1, 304, 0.3, 0, 82.12], 'liquid', 1.433, null, 82.12),
  sweetener('molasses', 'Molasses', '19304', [21.87, 290, 0, 0.1, 74.72], 'liquid', 1.424, null, 0.9 * 74.72),
  coffee('brewed-coffee', 'Brewed coffee', '14209', [99.39, 1, 0.12, 0.02, 0], 'liquid', 0.61, [40, 40]),
  coffee('espresso', 'Espresso', '14210', [97.8, 9, 0.12, 0.18, 0], 'liquid', 2.2, [212, 212]),
  coffee('instant-coffee', 'Instant coffee powder', '14214', [3.1, 353, 12.2, 0.5, 0], 'powder', 96.9, [3142, 3250]),
  coffee('arabica', 'Roast coffee, arabica', 'none', [0, 0, 0, 0, 0], 'grounds', null, [1100, 1200]),
  coffee('robusta', 'Roast coffee, robusta', 'none', [0, 0, 0, 0, 0], 'grounds', null, [2000, 2200]),
  water('water', 'Drinking water', 'liquid', 0.9982),
  water('ice', 'Ice', 'ice', 0.9167),
].map((one) => ({ ...one, ...provenance(one), densityIsAssumed: one.densityIsAssumed || ASSUMED.has(one.id) }))

function water(id: string, name: string, form: LineForm, density: number): StarterIngredient {
  const base = dairy(id, name, 'none', [100, 0, 0, 0, 0], density)
  return { ...base, kind: form === 'ice' ? 'ice' : 'water', form, carries: [] }
}

function provenance({
  id,
  kind,
  form,
  source,
  edition,
}: StarterIngredient): Pick<StarterIngredient, 'source' | 'edition'> {
  if (kind === 'water' || kind === 'ice')
    return { source: 'Water; density from ICUMSA SPS-4, of ice from memory', edition: '' }
  if (form === 'grounds') return { source: 'Caffeine of roast coffee: from memory, ask the roaster', edition: '' }
  if (kind === 'coffee') return { source: `${source}${CAFFEINE_MEMORY}`, edition: `${EDITION}; solids = 100 − water` }
  if (id === 'condensed-milk') return { source: `${source}; split of its sugars an estimate`, edition }
  if (id === 'coconut-milk') return { source: `${source}; sugars from memory`, edition }
  return { source, edition }
}
