import 'server-only'
import type { BatchRow } from '@/lib/db/batches'
import type { IngredientRow } from '@/lib/db/ingredients'
import { demand } from '@/lib/base/demand'
import type { AllergenMark } from '@/lib/drink/allergen'
import type { BuildLine, Composition, LineForm, LineKind, Preparation } from '@/lib/drink/trial'
import { innermostFirst } from '@/lib/drink/nesting'
import { lineOf, type Part } from '@/lib/drink/part'
import { PART } from '@/lib/drink/unit'
import { keptAmount } from '@/lib/forms/number-fields'
import { pricePerGram } from './price-per-gram'

/** A part of this café's store. */
export type StorePart = Part & {
  readonly archived: boolean
  /** of a batch: when it is thrown away */
  readonly discardAt: Date | null
  /** of an ingredient: packs that stand open, with the time they are thrown away */
  readonly packs: readonly OpenedUntil[]
  /** of a preparation that is named without a batch: which one stands for it today */
  readonly pour?: Pour
}

interface OpenedUntil {
  readonly mark: string | null
  readonly discardAt: Date
}

/** The batch of a preparation that is used first. */
export interface Pour {
  readonly preparationId: string
  readonly name: string
  /** null: none is in date */
  readonly batch: { readonly id: string; readonly number: number } | null
  /** °Bx that its formula cooks it to; null where none is named */
  readonly brix: number | null
}

/** Everything a line of this café may be made of, by ref. */
export type Store = ReadonlyMap<string, StorePart>

const kinds: readonly string[] = ['coffee', 'sweetener', 'milk', 'water', 'ice', 'other'] satisfies LineKind[]
const forms: readonly string[] = ['liquid', 'powder', 'grounds', 'ice'] satisfies LineForm[]

const isKind = (word: string): word is LineKind => kinds.includes(word)
const isForm = (word: string): word is LineForm => forms.includes(word)

export function storeOf(
  ingredients: readonly IngredientRow[],
  batches: readonly BatchRow[],
  currencyDigits: number,
): Store {
  const store = new Map<string, StorePart>()
  for (const ingredient of ingredients) {
    const part = ingredientPart(ingredient, currencyDigits)
    store.set(part.ref, part)
  }
  const rows = new Map(batches.map((batch) => [batch.id, batch]))
  const { order, loops } = innermostFirst(rows.keys(), (id) =>
    (rows.get(id)?.inputs ?? []).flatMap(({ inputBatchId }) => inputBatchId ?? []),
  )
  // A loop is refused when a batch is saved; meeting one here means the book is broken.
  demand(loops.size === 0, `a batch must not contain itself, got ${[...loops.keys()].join(', ')}`)
  const partOf = (ref: string): StorePart => {
    const part = store.get(ref)
    demand(part !== undefined, `a part that is used must be there, got ${ref}`)
    return part
  }
  for (const id of order) {
    const row = rows.get(id)
    demand(row !== undefined, `a batch that is used must be there, got ${id}`)
    const part = batchPart(row, partOf)
    store.set(part.ref, part)
  }
  return store
}

/** g of mg, or ml of µl. */
const grams = (mg: number | null) => (mg === null ? null : mg / 1000)

function ingredientPart(row: IngredientRow, currencyDigits: number): StorePart {
  const composition: Composition = {
    water: grams(row.waterMg),
    sugars: grams(row.sugarsMg),
    freeSugars: grams(row.freeSugarsMg),
    fat: grams(row.fatMg),
    protein: grams(row.proteinMg),
    energyKcal: row.energyDecikcal === null ? null : row.energyDecikcal / 10,
    coffeeSolids: grams(row.solidsMg),
    caffeineLow: row.caffeineLowMg100g === null ? null : row.caffeineLowMg100g / 10,
    caffeineHigh: row.caffeineHighMg100g === null ? null : row.caffeineHighMg100g / 10,
    sweetness: row.sweetnessPercent,
  }
  const price = row.prices[0]
  return {
    ref: `ingredient:${row.id}`,
    archived: row.archivedAt !== null,
    discardAt: null,
    name: row.name,
    kind: isKind(row.kind) ? row.kind : 'other',
    form: isForm(row.form) ? row.form : 'liquid',
    density: row.microdensity === null ? null : row.microdensity / 1_000_000,
    ...(row.densityIsAssumed && { densityIsAssumed: true }),
    costPerGram: price ? pricePerGram(price, currencyDigits) : null,
    composition,
    allergens: Object.fromEntries(row.allergens.map(({ allergen, state }) => [allergen, readMark(state)])),
    labelRead: row.labelReadAt !== null,
    ...(row.alcoholBp !== null && { alcoholPercent: row.alcoholBp / 100 }),
    preparation: null,
    pumpMl: grams(row.pumpUl),
    packs: row.openedPacks.flatMap(({ mark, discardAt }) => (discardAt ? [{ mark, discardAt }] : [])),
  }
}

/** A mark nobody knows counts as one nobody stated: it must not fall silent. */
function readMark(state: string): AllergenMark {
  return state === 'contains' || state === 'may-contain' || state === 'not-named' ? state : 'not-stated'
}

export const brewings: Readonly<Record<string, 'immersion' | 'percolation'>> = {
  'immersion-brew': 'immersion',
  'percolation-brew': 'percolation',
}

/** By which arithmetic a kind of preparation is worked out. */
export const madeAs = (kind: string): Preparation['kind'] =>
  kind === 'syrup' || kind === 'infusion' ? kind : brewings[kind] ? 'brew' : 'mix'

/** What a batch is used as in a glass: a syrup sweetens, a brew is coffee. */
export function kindOfPreparation(kind: string): LineKind {
  return kind === 'syrup' ? 'sweetener' : brewings[kind] ? 'coffee' : 'other'
}

export function batchName(preparation: string, number: number): string {
  return `${preparation}, batch ${number}`
}

export const inputRef = (input: BatchRow['inputs'][number]) =>
  input.ingredientId ? `ingredient:${input.ingredientId}` : `batch:${input.inputBatchId}`

function batchPart(row: BatchRow, partOf: (ref: string) => Part): StorePart {
  const brewing = brewings[row.preparation.kind]
  const preparation: Preparation = {
    name: row.preparation.name,
    kind: madeAs(row.preparation.kind),
    batch: String(row.number),
    inputs: row.inputs.map((input) => {
      const part = partOf(inputRef(input))
      return lineOf(part, {
        key: String(input.position),
        role: part.kind,
        targetGrams: input.amountMg / 1000,
        temperature: input.temperatureDeciC === null ? null : input.temperatureDeciC / 10,
        ...(input.isStrainedOut && { strainedOut: true }),
        typed: typedOf(input),
      })
    }),
    outputGrams: grams(row.outputMg),
    brixMeasured: row.brixHundredths === null ? null : row.brixHundredths / 100,
    densityMeasured: row.microdensity === null ? null : row.microdensity / 1_000_000,
    brew: brewing
      ? {
          method: row.preparation.name,
          brewing,
          ratioKind: null,
          ratio: null,
          retention: row.retentionMilli === null ? null : row.retentionMilli / 1000,
          extractionPercent: null,
          strengthPercent: row.solidsHundredths === null ? null : row.solidsHundredths / 100,
          waterTemperature: null,
          seconds: null,
        }
      : null,
    storageTemperature: row.preparation.storageDeciC === null ? null : row.preparation.storageDeciC / 10,
    ...(row.preparation.kind === 'infusion' && { retention: grams(row.retentionMilli) }),
  }
  return {
    ref: `batch:${row.id}`,
    archived: row.archivedAt !== null || row.preparation.archivedAt !== null,
    discardAt: row.discardAt,
    name: batchName(row.preparation.name, row.number),
    kind: kindOfPreparation(row.preparation.kind),
    form: 'liquid',
    density: preparation.densityMeasured,
    costPerGram: null,
    composition: null,
    allergens: {},
    labelRead: false,
    preparation,
    pumpMl: grams(row.preparation.pumpUl),
    packs: [],
  }
}

/** An amount as it was typed. The column beside it holds g of what was typed: of a millilitre, or of a part. */
export function typedOf(row: { typed: string; unit: string; microdensity: number | null }): BuildLine['typed'] {
  const amount = keptAmount(row.typed)
  if (amount === null || amount <= 0) return null
  const perUnit = row.microdensity === null ? null : row.microdensity / 1_000_000
  if (row.unit === PART && perUnit !== null) return { amount, unit: row.unit, density: null, partGrams: perUnit }
  return { amount, unit: row.unit, density: perUnit }
}

/** What a line, or a cost level in its place, is made of: an ingredient, one batch, or whichever batch of a preparation goes first. */
export interface Named {
  readonly ingredientId: string | null
  /** of a preparation that is named: the batch the line was written with, and once it is frozen the one that was poured */
  readonly batchId: string | null
  readonly preparationId: string | null
}

/** "ingredient:ID", "batch:ID" or "preparation:ID": what the sheet names, as a store knows it. */
export const refOf = (row: Named) =>
  row.ingredientId
    ? `ingredient:${row.ingredientId}`
    : row.preparationId
      ? `preparation:${row.preparationId}`
      : `batch:${row.batchId}`

/** What was poured: of a preparation that a frozen trial names, the batch of its day; of a draft what its sheet names. */
export const pouredRefOf = (row: Named, isFrozen: boolean) =>
  isFrozen && row.preparationId && row.batchId ? `batch:${row.batchId}` : refOf(row)

/** A ref as the columns of a line hold it. @param batchId  of a preparation: the batch it is written with */
export function namedBy(ref: string, batchId: string | null = null): Named {
  const [, kind = '', id = ''] = /^(ingredient|batch|preparation):(.+)$/s.exec(ref) ?? []
  return {
    ingredientId: kind === 'ingredient' ? id : null,
    batchId: kind === 'batch' ? id : kind === 'preparation' ? batchId : null,
    preparationId: kind === 'preparation' ? id : null,
  }
}
