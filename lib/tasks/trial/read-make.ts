import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import { findIngredients } from '@/lib/db/ingredients'
import { brewed } from '@/lib/drink/brewing'
import { makingCautions } from '@/lib/drink/caution'
import { packsFor } from '@/lib/drink/cost'
import { pressesIn } from '@/lib/drink/dose'
import { sum, tally } from '@/lib/drink/figure'
import { isBrewed } from '@/lib/drink/instant'
import { makeMany, partsFor, type Lacking, type Parts } from '@/lib/drink/make-many'
import type { BrewStep as ScaleBrewStep } from '@/lib/drink/scale'
import { toMl } from '@/lib/drink/to-ml'
import type { TrialBuild } from '@/lib/drink/trial'
import type { MakeAsked } from '@/lib/forms/make-form'
import { pricePerGram } from '../store/price-per-gram'
import type { Reader, World } from '../world'
import { readTrial, type TrialSheet } from './read-trial'

/** How the grounds of one line are brewed. Grams. */
interface BrewStep extends Pick<ScaleBrewStep, 'grind' | 'waterTemperature' | 'seconds'> {
  readonly water: number
  readonly beverage: number
}

/** One thing to bring in. Null where today's store knows no pack or price of that name. */
export interface Buy {
  readonly name: string
  readonly grams: number
  readonly packs: { readonly count: number; readonly grams: number } | null
  /** of what is used, in the café's currency */
  readonly cost: number | null
}

/** Everything to make, in working order. */
export interface ToMake {
  readonly known: true
  /** g of ice that melts into the volume; null where glasses were asked for */
  readonly meltGrams: number | null
  readonly lines: readonly (Parts['lines'][number] & {
    readonly brew: BrewStep | null
    /** of the pump, where the sheet counts it so */
    readonly presses: number | null
  })[]
  readonly preparations: Parts['preparations']
  readonly buy: readonly Buy[]
  /** of all that has a price, null where nothing has; and the names of what has none */
  readonly cost: { readonly known: number | null; readonly without: readonly string[] }
  /** g to brew with, which is no line of the sheet */
  readonly brewWater: number
  /** of the making and of the drink */
  readonly cautions: readonly string[]
}

/** What a trial takes for many glasses or a volume; `make` is null until something is asked for. */
export async function readMake(
  world: World,
  reader: Reader,
  trialId: string,
  asked: MakeAsked | null,
): Promise<{ readonly sheet: TrialSheet; readonly make: ToMake | Lacking | null } | null> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  if (asked === null) return { sheet, make: null }
  const parts = partsAsked(sheet.build, asked)
  if (!parts.known) return { sheet, make: parts }
  const { timeZone } = await requireCafe(world.db, reader.cafeId)
  const ingredients = await findIngredients(world.db, reader.cafeId, dayIn(world.now(), timeZone))
  const digits = reader.cafe.currencyDigits
  const buy = parts.shopping.map(({ name, grams }): Buy => {
    const [one, ...more] = ingredients.filter(
      (ingredient) => ingredient.name === name && ingredient.archivedAt === null,
    )
    const price = one && more.length === 0 ? one.prices[0] : undefined
    const perGram = price ? pricePerGram(price, digits) : null
    if (!price || perGram === null) return { name, grams, packs: null, cost: null }
    const pack = price.packMg / 1000
    const count = packsFor(grams, pack, price.usableBp / 10_000)
    return { name, grams, packs: { count, grams: pack }, cost: grams * perGram }
  })
  const cautions = [...makingCautions(sheet.build), ...sheet.figures.cautions]
  return { sheet, make: { ...withBrews(sheet.build, parts), buy, cost: costOf(buy), cautions } }
}

function costOf(buy: readonly Buy[]): ToMake['cost'] {
  const priced = buy.flatMap(({ cost }) => cost ?? [])
  return {
    known: priced.length === 0 ? null : priced.reduce((all, cost) => all + cost, 0),
    without: buy.filter(({ cost }) => cost === null).map(({ name }) => name),
  }
}

type PartsAsked = Parts & { readonly meltGrams: number | null }

function partsAsked(build: TrialBuild, { count, amount, spare }: MakeAsked): PartsAsked | Lacking {
  if (count === 'glasses') return withMelt(makeMany(build, amount, spare), null)
  const scaled = toMl(build, amount * (1 + spare), count)
  return scaled.known ? withMelt(partsFor(build, scaled.factor), scaled.meltGrams) : scaled
}

const withMelt = (parts: Parts | Lacking, meltGrams: number | null) => (parts.known ? { ...parts, meltGrams } : parts)

/** What the grounds are brewed with, which no line of the sheet names. */
function withBrews({ lines, brew }: TrialBuild, parts: PartsAsked): Omit<ToMake, 'buy' | 'cost' | 'cautions'> {
  const { meltGrams, preparations } = parts
  const brewOf = (key: string, grams: number): BrewStep | null => {
    const line = lines.find((one) => one.key === key)
    if (!line || brew === null || !isBrewed(line, brew)) return null
    const { water, beverage } = brewed(brew, tally(grams, ''), null)
    if (sum([water, beverage]).missing.length > 0) return null
    const { waterTemperature, seconds } = brew
    return { water: water.total, beverage: beverage.total, grind: line.grind, waterTemperature, seconds }
  }
  const pressesOf = (key: string, grams: number) => {
    const line = lines.find((one) => one.key === key)
    return line ? pressesIn(line, grams) : null
  }
  const made = parts.lines.map((line) => ({
    ...line,
    brew: brewOf(line.key, line.grams),
    presses: pressesOf(line.key, line.grams),
  }))
  const brewWater = made.reduce((all, { brew: step }) => all + (step?.water ?? 0), 0)
  return { known: true, meltGrams, lines: made, preparations, brewWater }
}
