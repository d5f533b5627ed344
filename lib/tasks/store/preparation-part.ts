import 'server-only'
import type { FormulaRow } from '@/lib/db/formulas'
import type { PreparationRow } from '@/lib/db/preparations'
import { innermostFirst } from '@/lib/drink/nesting'
import { lineOf, type Part } from '@/lib/drink/part'
import type { Preparation } from '@/lib/drink/trial'
import { firstInDate, isInDate } from './in-date'
import type { Pours } from './pours'
import { madeAs, brewings, kindOfPreparation, typedOf, type Store, type StorePart } from './store-part'

/** The store with its preparations named without a batch among it. */
export function withPreparations(store: Store, pours: Pours): Store {
  return new Map([...store, ...preparationParts(pours, store).map((part) => [part.ref, part] as const)])
}

/**
 * Preparations as parts, without a batch: the figures are those of the batch in date that must go first; where none is in
 * date nothing of it is known. Beside stand the formula and every other batch that may be poured, those in date: their allergens count.
 *
 * @param store  with every batch that stands, and every ingredient
 */
function preparationParts(pours: Pours, store: Store): readonly StorePart[] {
  const rows = new Map(pours.preparations.map((row) => [row.id, row]))
  const formulas = new Map(pours.formulas.map((row) => [row.preparationId, row]))
  const within = (id: string) =>
    (formulas.get(id)?.inputs ?? []).flatMap(({ preparationId }) => (preparationId ? [preparationId] : []))
  const parts = new Map<string, StorePart>()
  // A circle is refused when a formula is saved. A book that holds one all the same leaves out what is not there yet.
  for (const id of innermostFirst(rows.keys(), within).order) {
    const row = rows.get(id)
    if (!row) continue
    const formula = formulas.get(id)
    const find = (ref: string) => store.get(ref) ?? parts.get(ref) ?? null
    parts.set(`preparation:${id}`, preparationPart(row, pours, store, formula ? formulaPart(formula, find) : null))
  }
  return [...parts.values()]
}

function preparationPart(row: PreparationRow, pours: Pours, store: Store, formula: Part | null): StorePart {
  const { id, name } = row
  const standing = pours.standing.filter(({ preparationId }) => preparationId === id)
  const first = firstInDate(standing, id, pours.now)
  const batch = first && (store.get(`batch:${first.id}`) ?? null)
  const others = standing
    .filter((one) => one.id !== first?.id && isInDate(one, pours.now))
    .flatMap((one) => store.get(`batch:${one.id}`) ?? [])
  const known = [...others, ...(formula ? [formula, ...(formula.beside ?? [])] : [])]
  const part = batch ?? nothingInDate(row)
  return {
    ...part,
    ref: `preparation:${id}`,
    archived: row.archivedAt !== null,
    discardAt: first?.discardAt ?? null,
    beside: batch === null ? [...known, unread(part)] : known,
    pour: {
      preparationId: id,
      name,
      batch: first && { id: first.id, number: first.number },
      brix: namedBrix(pours, id),
    },
  }
}

/** °Bx that the formula cooks it to. */
function namedBrix({ formulas }: Pours, preparationId: string): number | null {
  const named = formulas.find((formula) => formula.preparationId === preparationId)?.brixHundredths ?? null
  return named === null ? null : named / 100
}

/** A preparation of which no batch is in date: it holds nothing, so that every figure of it is asked for. */
function nothingInDate(row: PreparationRow): StorePart {
  return {
    ref: `preparation:${row.id}`,
    name: `${row.name}, no batch in date`,
    archived: row.archivedAt !== null,
    discardAt: null,
    packs: [],
    ...bare(row.kind),
    preparation: { ...shell(row.name, row.kind, row.storageDeciC), batch: '', inputs: [] },
  }
}

/** Nobody has made what will be poured: what its label would say is not known, whatever its formula names. */
const unread = (part: Part): Part => ({ ...part, preparation: null, allergens: {}, labelRead: false })

const bare = (kind: string) => ({
  kind: kindOfPreparation(kind),
  form: 'liquid' as const,
  density: null,
  costPerGram: null,
  composition: null,
  allergens: {},
  labelRead: false,
})

function shell(name: string, kind: string, storageDeciC: number | null): Omit<Preparation, 'batch' | 'inputs'> {
  const brewing = brewings[kind]
  return {
    name,
    kind: madeAs(kind),
    outputGrams: null,
    brixMeasured: null,
    densityMeasured: null,
    brew: brewing
      ? {
          method: name,
          brewing,
          ratioKind: null,
          ratio: null,
          retention: null,
          extractionPercent: null,
          strengthPercent: null,
          waterTemperature: null,
          seconds: null,
        }
      : null,
    storageTemperature: storageDeciC === null ? null : storageDeciC / 10,
  }
}

/** What a formula takes of one thing. */
export const formulaInputRef = (input: FormulaRow['inputs'][number]) =>
  input.ingredientId ? `ingredient:${input.ingredientId}` : `preparation:${input.preparationId}`

/** A formula as the batch it would give, for the inputs as they stand; nothing of it is measured. */
export function formulaPreparation(row: FormulaRow, find: (ref: string) => Part | null): Preparation {
  const { name, kind } = row.preparation
  const made = shell(name, kind, row.storageDeciC)
  return {
    ...made,
    batch: `formula ${row.version}`,
    ...(kind === 'infusion' && { retention: row.retentionMilli === null ? null : row.retentionMilli / 1000 }),
    brew: made.brew && { ...made.brew, retention: row.retentionMilli === null ? null : row.retentionMilli / 1000 },
    inputs: row.inputs.flatMap((input) => {
      const part = find(formulaInputRef(input))
      if (!part) return []
      const amount = {
        key: String(input.position),
        role: part.kind,
        targetGrams: input.amountMg / 1000,
        temperature: input.temperatureDeciC === null ? null : input.temperatureDeciC / 10,
        typed: typedOf(input),
        ...(input.isStrainedOut && { strainedOut: true }),
      }
      return [lineOf(part, amount)]
    }),
  }
}

function formulaPart(row: FormulaRow, find: (ref: string) => Part | null): Part {
  return {
    ref: `formula:${row.id}`,
    name: `${row.preparation.name}, formula ${row.version}`,
    ...bare(row.preparation.kind),
    preparation: formulaPreparation(row, find),
    beside: row.inputs.flatMap((input) => find(formulaInputRef(input))?.beside ?? []),
  }
}
