import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findIngredients } from '@/lib/db/ingredients'
import { makingCautions } from '@/lib/drink/caution'
import { packsFor } from '@/lib/drink/cost'
import type { Lacking, Shelf } from '@/lib/drink/make-many'
import type { MakeAsked } from '@/lib/forms/make-form'
import { pricePerGram } from '../store/price-per-gram'
import type { Reader, World } from '../world'
import { fromFormulas, type MadeFirst } from './from-formula'
import { partsToMake, type PartsToMake } from './make-parts'
import { readTrial, type TrialSheet } from './read-trial'

/** What is there already, in g by name: of preparations, and of what is bought. */
export interface There {
  readonly made: Shelf
  readonly bought: Shelf
}

/** g: less is the rounding of the sums, and nothing to buy. */
const A_SPECK = 1e-6

/** One thing to bring in. Null where today's store knows no pack or price of that name. */
export interface Buy {
  readonly name: string
  /** needed, whatever is there */
  readonly grams: number
  /** g of it that are there; null where nobody said */
  readonly there: number | null
  /** to buy, of what is not there: none where enough is */
  readonly packs: { readonly count: number; readonly grams: number } | null
  /** of what is used, in the café's currency */
  readonly cost: number | null
}

/** Everything to make, in working order, and what must be bought for it. */
export interface ToMake extends Omit<PartsToMake, 'shopping'> {
  readonly buy: readonly Buy[]
  /** of all that has a price, null where nothing has; and the names of what has none */
  readonly cost: { readonly known: number | null; readonly without: readonly string[] }
  /** of the making and of the drink */
  readonly cautions: readonly string[]
}

export interface ReadMake {
  readonly sheet: TrialSheet
  /** of what the sheet names by preparation: none is in date */
  readonly first: readonly MadeFirst[]
  readonly make: ToMake | Lacking | null
}

/**
 * What a trial takes for many glasses or a volume; `make` is null until something is asked for.
 *
 * @param there  what is left on the shelf: so much less is made, and so much less is bought
 */
export async function readMake(
  world: World,
  reader: Reader,
  trialId: string,
  asked: MakeAsked | null,
  there?: There,
): Promise<ReadMake | null> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  const { build, first } = await fromFormulas(world.db, reader.cafeId, world.now(), sheet.poured, sheet.todays)
  if (asked === null) return { sheet, first, make: null }
  const parts = partsToMake(build, asked, { onShelf: there?.made, scales: sheet.forToday.scales })
  if (!parts.known) return { sheet, first, make: parts }
  const { timeZone } = await requireCafe(world.db, reader.cafeId)
  const ingredients = await findIngredients(world.db, reader.cafeId, dayIn(world.now(), timeZone))
  const digits = reader.cafe.currencyDigits
  const { shopping, ...made } = parts
  const buy = shopping.map(({ name, grams }): Buy => {
    const here = there?.bought.get(name) ?? null
    const [one, ...more] = ingredients.filter(
      (ingredient) => ingredient.name === name && ingredient.archivedAt === null,
    )
    const price = one && more.length === 0 ? one.prices[0] : undefined
    const perGram = price ? pricePerGram(price, digits) : null
    // as on the sheet: ice and water cost nothing unless priced
    const isFree = !price && (one?.kind === 'water' || one?.kind === 'ice')
    if (!price || perGram === null) return { name, grams, there: here, packs: null, cost: isFree ? 0 : null }
    const pack = price.packMg / 1000
    const lacks = Math.max(0, grams - (here ?? 0))
    const count = lacks > A_SPECK ? packsFor(lacks, pack, price.usableBp / 10_000) : 0
    return { name, grams, there: here, packs: { count, grams: pack }, cost: grams * perGram }
  })
  const cautions = [...makingCautions(build), ...sheet.figures.cautions]
  return { sheet, first, make: { ...made, buy, cost: costOf(buy), cautions } }
}

function costOf(buy: readonly Buy[]): ToMake['cost'] {
  const priced = buy.flatMap(({ cost }) => cost ?? [])
  return {
    known: priced.length === 0 ? null : priced.reduce((all, cost) => all + cost, 0),
    without: buy.filter(({ cost }) => cost === null).map(({ name }) => name),
  }
}
