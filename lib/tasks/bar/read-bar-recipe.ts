import 'server-only'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findBatchesById } from '@/lib/db/batches'
import type { CorrectedDose, ForToday, UnreadDose } from '@/lib/drink/for-today'
import { scaleSheet } from '@/lib/drink/scale'
import type { OtherBatch } from '@/lib/drink/other-batch'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import { keepingOf, readCard, type CardSheet } from '../trial/read-card'
import { pastBatches, type PastBatch } from '../store/past-batches'
import { readStore } from '../store/reach-store'
import { usedOn } from '../trial/todays-batches'
import type { Reader, World } from '../world'
import { doseInOther } from '../store/batch-brix'
import { readShelf, toPour, type ShelfBatch } from './shelf'

/** Which batch stands for a preparation of the house recipe today. */
export interface Pour {
  /** of the line it is poured into */
  readonly key: string
  readonly name: string
  /** null: none is in date, and one must be made */
  readonly batch: ShelfBatch | null
  /** g on the sheet, as it was settled */
  readonly dose: number
  /** where it reads more than a degree otherwise: °Bx of both, and what holds the same sugar; nobody has tasted that */
  readonly otherwise: {
    readonly settled: number
    readonly reads: number
    readonly dose: number
    readonly grams: number
  } | null
  /** it is another batch than the recipe was settled with, and the °Bx of one of them is not known */
  readonly isUnread: boolean
}

export interface BarRecipe {
  readonly card: CardSheet
  /** what the steps beside the scale are worked out from: nothing in it costs anything */
  readonly build: TrialBuild
  readonly pours: readonly Pour[]
  /** what these change beside the scale, and the pumps on the bottles */
  readonly forToday: ForToday
  /** bottles of what is poured, and opened packs of what goes in, that are past their time: still on the shelf */
  readonly past: readonly PastBatch[]
}

/** The house recipe of a drink, with what is poured of each preparation today. @returns null where there is none */
export async function readBarRecipe(world: World, reader: Reader, recipeId: string): Promise<BarRecipe | null> {
  const house = await findHouseRecipe(world.db, reader.cafeId, recipeId)
  const card = house && (await readCard(world, reader, house.trialId))
  if (!card || card.sheet.trial.recipe.archivedAt !== null) return null
  const build = barBuild(card.sheet.build)
  const { pours, past } = await poursOf(world, reader, card)
  const { pressGrams, scales } = card.sheet.forToday
  const forToday = {
    corrected: Object.fromEntries(pours.flatMap(correctedDose)),
    unread: Object.fromEntries(pours.flatMap(unreadDose)),
    pressGrams,
    scales,
  }
  const here = { ...card, scale: scaleSheet(build, 1, forToday), keeping: keepingOf(build) }
  return { card: here, build, pours, forToday, past }
}

/** Behind the bar the oldest bottle in date is poured, whichever batch the sheet names. */
const correctedDose = ({ key, batch, otherwise }: Pour): [string, CorrectedDose][] =>
  batch && otherwise ? [[key, { batch: batch.number, grams: otherwise.grams, sheetGrams: otherwise.dose }]] : []

/** Without the °Bx of both nobody can say the dose: the sheet's must not stand there as if it held. */
const unreadDose = ({ key, batch, isUnread, dose }: Pour): [string, UnreadDose][] =>
  batch && isUnread ? [[key, { batch: batch.number, sheetGrams: dose }]] : []

/** A build as the bar may hold it: named by preparation and not by the batch it was once weighed with, and without money. */
function barBuild(build: TrialBuild): TrialBuild {
  const { money } = build
  const none = { wasteFraction: null, packagingCost: null, targetCostFraction: null, taxFraction: null }
  return {
    ...build,
    lines: build.lines.map(withoutCost),
    beside: [],
    money: { currency: money.currency, ...none, menuPrice: null, fixedCost: null },
  }
}

function withoutCost(line: BuildLine): BuildLine {
  const { preparation } = line
  if (preparation === null) return { ...line, costPerGram: null }
  const inside = { ...preparation, inputs: preparation.inputs.map(withoutCost) }
  return { ...line, name: preparation.name, costPerGram: null, preparation: inside }
}

/** As the recipe was made: at its cost level, with what the level used in the place of what the sheet names. */
async function poursOf(world: World, reader: Reader, card: CardSheet): Promise<Pick<BarRecipe, 'pours' | 'past'>> {
  const { lines, costLevelId } = card.sheet.trial
  const doses = lines.flatMap(({ alternatives, batchId, position, targetMg }) => {
    const used = alternatives.find((one) => one.costLevelId === costLevelId)
    const poured = used ? used.batchId : batchId
    return poured === null ? [] : [{ batchId: poured, key: String(position), grams: targetMg / 1000 }]
  })
  const settled = await findBatchesById(
    world.db,
    reader.cafeId,
    doses.map(({ batchId }) => batchId),
  )
  const bought = lines.flatMap((line) => {
    const { ingredientId } = usedOn(line, costLevelId)
    return ingredientId === null ? [] : [`ingredient:${ingredientId}`]
  })
  const now = world.now()
  const [shelf, store] = await Promise.all([
    readShelf(
      world.db,
      reader.cafeId,
      settled.map(({ preparationId }) => preparationId),
    ),
    readStore(world.db, reader.cafeId, now, [
      ...bought,
      ...settled.flatMap(({ id, preparationId }) => [`batch:${id}`, `preparation:${preparationId}`]),
    ]),
  ])
  const standing = shelf.map(({ id }) => `batch:${id}`)
  const pours = doses.flatMap(({ batchId, key, grams }) => {
    const row = settled.find(({ id }) => id === batchId)
    if (!row) return []
    const batch = toPour(shelf, row.preparationId, now)
    const named = store.get(`preparation:${row.preparationId}`)?.pour?.brix ?? null
    const other = batch && doseInOther(store, { dose: grams, was: row.id, now: batch.id, named })
    return [{ key, name: row.preparation.name, batch, dose: grams, ...sayOther(other, grams) }]
  })
  return { pours, past: pastBatches(store, [...standing, ...bought], now) }
}

function sayOther(other: OtherBatch | null, dose: number): Pick<Pour, 'otherwise' | 'isUnread'> {
  if (other?.dose !== 'corrected') return { otherwise: null, isUnread: other?.dose === 'unknown' }
  const { was: settled, reads, grams } = other
  return { otherwise: { settled, reads, dose, grams }, isUnread: false }
}
