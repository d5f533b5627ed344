import 'server-only'
import * as z from 'zod'
import type { Tx } from '@/lib/db/engine/client'
import { findTrialsHolding, takenInstead } from '@/lib/db/trials-holding'
import { addUpstreamChange, type upstreamKinds } from '@/lib/db/upstream-changes'
import type { Actor, World } from '../world'

/** A price as it counted: of a pack, in the café's currency, with the usable share of the pack. */
const PriceThen = z.object({
  price: z.number(),
  packGrams: z.number(),
  packTyped: z.string(),
  packUnit: z.string(),
  usable: z.number(),
})
export type PriceThen = z.infer<typeof PriceThen>

/** What a label said: marks of allergens, whether somebody had read it whole, and what is in 100 g. Null: not known. */
const LabelThen = z.object({
  allergens: z.record(z.string(), z.string()),
  read: z.boolean(),
  composition: z.record(z.string(), z.number().nullable()),
})
export type LabelThen = z.infer<typeof LabelThen>

const SupplierThen = z.object({ supplier: z.string().nullable() })

/** @returns null where nothing was kept, and for a text that is none of these */
function readThen<Then>(schema: z.ZodType<Then>, text: string | null): Then | null {
  if (text === null) return null
  try {
    const read = schema.safeParse(JSON.parse(text))
    return read.success ? read.data : null
  } catch {
    return null
  }
}

export const priceThen = (text: string | null) => readThen(PriceThen, text)
export const labelThen = (text: string | null) => readThen(LabelThen, text)
export const supplierThen = (text: string | null) => readThen(SupplierThen, text)?.supplier ?? null

interface PriceRow {
  readonly priceMinor: number
  readonly packMg: number
  readonly packTyped: string
  readonly packUnit: string
  readonly usableBp: number
}

function priceNow(row: PriceRow | null | undefined, currencyDigits: number): PriceThen | null {
  if (!row) return null
  return {
    price: row.priceMinor / 10 ** currencyDigits,
    packGrams: row.packMg / 1000,
    packTyped: row.packTyped,
    packUnit: row.packUnit,
    usable: row.usableBp / 10_000,
  }
}

const samePrice = (a: PriceThen | null, b: PriceThen | null) =>
  a?.price === b?.price && a?.packGrams === b?.packGrams && a?.usable === b?.usable

/**
 * Tells a change of what counts today, where there is one. The first price that an ingredient ever gets changes nothing that
 * was known.
 *
 * @param first  true where no price stood there before, struck out or not
 */
export async function tellPriceChange(
  world: World,
  tx: Tx,
  actor: Actor,
  change: {
    readonly ingredientId: string
    readonly before: PriceRow | null | undefined
    readonly after: PriceRow | null | undefined
    readonly currencyDigits: number
    readonly first: boolean
  },
): Promise<void> {
  const [before, after] = [change.before, change.after].map((row) => priceNow(row, change.currencyDigits))
  if (change.first || samePrice(before ?? null, after ?? null)) return
  const isPack = before && after && (before.packGrams !== after.packGrams || before.usable !== after.usable)
  await tell(world, tx, actor, change.ingredientId, isPack ? 'pack' : 'price', before, after)
}

interface LabelRow {
  readonly waterMg: number | null
  readonly sugarsMg: number | null
  readonly freeSugarsMg: number | null
  readonly fatMg: number | null
  readonly proteinMg: number | null
  readonly energyDecikcal: number | null
  readonly solidsMg: number | null
  readonly caffeineLowMg100g: number | null
  readonly caffeineHighMg100g: number | null
  readonly sweetnessPercent: number | null
  readonly brixHundredths: number | null
  readonly alcoholBp: number | null
  readonly supplier: string | null
}

const compositionNow = (row: LabelRow) => ({
  water: over(row.waterMg, 1000),
  sugars: over(row.sugarsMg, 1000),
  freeSugars: over(row.freeSugarsMg, 1000),
  fat: over(row.fatMg, 1000),
  protein: over(row.proteinMg, 1000),
  energyKcal: over(row.energyDecikcal, 10),
  coffeeSolids: over(row.solidsMg, 1000),
  caffeineLow: over(row.caffeineLowMg100g, 10),
  caffeineHigh: over(row.caffeineHighMg100g, 10),
  sweetness: row.sweetnessPercent,
  brix: over(row.brixHundredths, 100),
  alcohol: over(row.alcoholBp, 100),
})

const over = (value: number | null, by: number) => (value === null ? null : value / by)

export interface LabelState {
  readonly row: LabelRow
  readonly marks: readonly { readonly allergen: string; readonly state: string }[]
  readonly read: boolean
}

function labelNow({ row, marks, read }: LabelState): LabelThen {
  const allergens = Object.fromEntries(
    marks
      .filter(({ state }) => state !== 'not-stated')
      .map(({ allergen, state }) => [allergen, state] as const)
      .toSorted(([a], [b]) => (a < b ? -1 : 1)),
  )
  return { allergens, read, composition: compositionNow(row) }
}

/**
 * Tells what a corrected label changed: another supplier, another composition, other allergens. A figure that was not known
 * and now is says nothing of what is in the pack. A label that is read for the first time tells of its allergens only where
 * a trial that was poured or adopted holds the ingredient, for somebody drank it without having been told, or where a draft
 * took it instead of something else, for whoever made that was not told what it brings. So does alcohol first stated.
 */
export async function tellLabelChange(
  world: World,
  tx: Tx,
  actor: Actor,
  ingredientId: string,
  before: LabelState,
  after: LabelState,
): Promise<void> {
  if (before.row.supplier !== null && before.row.supplier !== after.row.supplier)
    await tell(
      world,
      tx,
      actor,
      ingredientId,
      'supplier',
      { supplier: before.row.supplier },
      { supplier: after.row.supplier },
    )
  const [was, is] = [labelNow(before), labelNow(after)]
  const otherMarks = JSON.stringify(was.allergens) !== JSON.stringify(is.allergens)
  const isTold =
    compositionChanges(was, is).length > 0 ||
    (was.read && (otherMarks || !is.read)) ||
    ((otherMarks || alcoholStated(was, is) !== null) && (await isUsedUntold(tx, actor.cafeId, ingredientId)))
  if (isTold) await tell(world, tx, actor, ingredientId, 'label', was, is)
}

/** Figures of 100 g that were known and are now others, or not known any more. */
export function compositionChanges(before: LabelThen, after: LabelThen) {
  return Object.entries(before.composition).flatMap(([name, was]) => {
    const is = after.composition[name] ?? null
    return was === null || was === is ? [] : [{ name, was, is }]
  })
}

/** % by volume, where nobody had stated any alcohol before and now there is some; else null. */
export function alcoholStated(before: LabelThen, after: LabelThen): number | null {
  const [was, is] = [before, after].map(({ composition }) => composition['alcohol'] ?? null)
  return was === null && typeof is === 'number' && is > 0 ? is : null
}

async function isUsedUntold(tx: Tx, cafeId: string, ingredientId: string): Promise<boolean> {
  const holding = await findTrialsHolding(tx, cafeId, ingredientId)
  return holding.some(({ frozenAt }) => frozenAt !== null) || takenInstead(holding).length > 0
}

async function tell(
  world: World,
  tx: Tx,
  actor: Actor,
  ingredientId: string,
  what: (typeof upstreamKinds)[number],
  before: object | null | undefined,
  after: object | null | undefined,
): Promise<void> {
  const kept = (state: object | null | undefined) => (state ? JSON.stringify(state) : null)
  await addUpstreamChange(tx, {
    id: world.id(),
    cafeId: actor.cafeId,
    ingredientId,
    what,
    before: kept(before),
    after: kept(after),
    at: world.now(),
    byId: actor.userId,
  })
}
