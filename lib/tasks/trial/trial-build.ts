import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import type { AllergenListId } from '@/lib/drink/allergen'
import type { BesideLine, Brew, MoneySettings, TrialBuild } from '@/lib/drink/trial'
import { madeAt, type Alternative } from '@/lib/drink/cost-level'
import { findMethod } from '@/lib/drink/method'
import { lineOf } from '@/lib/drink/part'
import { withTrueShares } from '@/lib/drink/shares'
import { pouredRefOf, refOf, typedOf, type Named, type Store } from '../store/store-part'
import type { CafeMoney } from '../world'

const lists: readonly string[] = ['eu', 'us', 'philippines', 'codex'] satisfies AllergenListId[]
const isAllergenList = (word: string): word is AllergenListId => lists.includes(word)

/** The list whose allergens count in this café. */
export function allergenListOf({ allergenList }: Pick<CafeMoney, 'allergenList'>): AllergenListId {
  return isAllergenList(allergenList) ? allergenList : 'eu'
}

const tenth = (value: number | null) => (value === null ? null : value / 10)

/** How a trial brews, from its columns; null where nothing is brewed into the glass. */
export function brewOf(
  trial: Pick<
    TrialRow,
    | 'method'
    | 'ratioKind'
    | 'ratioMilli'
    | 'retentionMilli'
    | 'extractionBp'
    | 'strengthBp'
    | 'waterDeciC'
    | 'brewSeconds'
  >,
): Brew | null {
  const method = findMethod(trial.method)
  if (!method?.brewing) return null
  return {
    method: method.words,
    brewing: method.brewing,
    ratioKind: trial.ratioKind === 'water-in' || trial.ratioKind === 'beverage-out' ? trial.ratioKind : null,
    ratio: trial.ratioMilli === null ? null : trial.ratioMilli / 1000,
    retention: trial.retentionMilli === null ? null : trial.retentionMilli / 1000,
    extractionPercent: trial.extractionBp === null ? null : trial.extractionBp / 100,
    strengthPercent: trial.strengthBp === null ? null : trial.strengthBp / 100,
    waterTemperature: tenth(trial.waterDeciC),
    seconds: trial.brewSeconds,
  }
}

function moneyOf(trial: Pick<TrialRow, 'recipe' | 'vessel'>, cafe: CafeMoney): MoneySettings {
  const minor = 10 ** cafe.currencyDigits
  const { recipe, vessel } = trial
  return {
    currency: cafe.currency,
    wasteFraction: recipe.wasteBp / 10_000,
    packagingCost: (recipe.packMinor + (vessel?.packMinor ?? 0)) / minor,
    targetCostFraction: recipe.targetCostBp === null ? null : recipe.targetCostBp / 10_000,
    taxFraction: recipe.taxBp === null ? null : recipe.taxBp / 10_000,
    menuPrice: recipe.priceMinor === null ? null : recipe.priceMinor / minor,
    fixedCost: recipe.fixedMinor === null ? null : recipe.fixedMinor / minor,
  }
}

/**
 * Of a preparation that a sheet names: `settled` is the batch a frozen trial was poured from, and of a draft the one that goes
 * first; `today` is the one that goes first, of a frozen trial too.
 */
export type BatchOf = 'settled' | 'today'

const isSettled = ({ frozenAt }: Pick<TrialRow, 'frozenAt'>, of: BatchOf) => of === 'settled' && frozenAt !== null

/** What each level of the recipe would use on the lines of this trial, in the place of what its sheet names. */
export function alternativesOf(
  trial: Pick<TrialRow, 'lines' | 'frozenAt'>,
  store: Store,
  of: BatchOf = 'settled',
): readonly Alternative[] {
  return trial.lines.flatMap((line) =>
    line.alternatives.flatMap((row) => {
      const part = store.get(pouredRefOf(row, isSettled(trial, of)))
      if (!part || refOf(row) === refOf(line)) return []
      const key = String(line.position)
      const targetGrams = line.targetMg / 1000
      const other = lineOf(part, { key, role: part.kind, targetGrams, ...anyBatchOf(row) })
      return [{ key, level: row.costLevel, line: other }]
    }),
  )
}

const anyBatchOf = ({ preparationId }: Pick<Named, 'preparationId'>) => preparationId !== null && { anyBatch: true }

/** A trial as it was made: at its cost level, with all that the level used in the place of what the sheet names. */
export function trialBuild(trial: TrialRow, store: Store, cafe: CafeMoney, of: BatchOf = 'settled'): TrialBuild {
  const made = madeAt(sheetBuild(trial, store, cafe, of), trial.costLevel, alternativesOf(trial, store, of))
  return { ...made, beside: [...made.beside, ...otherBatches(trial, store)] }
}

/**
 * What else may be poured where a preparation is named: every batch in date, weighed or not, and what its formula makes. While
 * no cost level is said, of what each level names too.
 */
function otherBatches({ lines, costLevel, frozenAt }: TrialRow, store: Store): readonly BesideLine[] {
  return lines.flatMap((line) => {
    const chosen = line.alternatives.find((row) => row.costLevel.id === costLevel?.id)
    const named = costLevel === null ? [line, ...line.alternatives] : [chosen ?? line]
    const key = String(line.position)
    return named.flatMap((row): BesideLine[] => {
      const part = row.preparationId === null ? undefined : store.get(refOf(row))
      if (!part) return []
      const isPoured = pouredRefOf(row, frozenAt !== null) === `batch:${part.pour?.batch?.id ?? ''}`
      // a frozen trial was poured from a batch of its own: today's stands beside it
      const first = frozenAt !== null && row.batchId !== null && !isPoured ? [part] : []
      return [...first, ...(part.beside ?? [])].map((other) => ({
        line: lineOf(other, { key, role: other.kind, targetGrams: line.targetMg / 1000 }),
        insteadOf: part.pour?.name ?? part.name,
        level: null,
        why: 'other-batch',
      }))
    })
  })
}

/** Where the glass stands, and what it lets in: null while neither was measured. */
function roomOf({ recipe, vessel }: Pick<TrialRow, 'recipe' | 'vessel'>): TrialBuild['room'] {
  const temperature = tenth(recipe.roomDeciC)
  const heatLeak = vessel?.leakMilli == null ? null : vessel.leakMilli / 1000
  return temperature === null && heatLeak === null ? null : { temperature, heatLeak }
}

/**
 * A trial as its lines name it, whatever its cost level: rows to grams, degrees and money. A share of the glass that is none
 * any more, since what an ingredient is was corrected in the store, is not said.
 */
export function sheetBuild(trial: TrialRow, store: Store, cafe: CafeMoney, of: BatchOf = 'settled'): TrialBuild {
  const { vessel } = trial
  return withTrueShares({
    name: trial.name,
    brew: brewOf(trial),
    coffeeTemperature: tenth(trial.coffeeDeciC),
    iceTemperature: tenth(trial.iceDeciC),
    vessel: vessel && {
      name: vessel.name,
      brimMl: vessel.brimUl / 1000,
      fillMl: vessel.fillUl === null ? null : vessel.fillUl / 1000,
    },
    level: null,
    lines: trial.lines.flatMap((line) => {
      const part = store.get(pouredRefOf(line, isSettled(trial, of)))
      if (!part) return []
      return [
        lineOf(part, {
          key: String(line.position),
          role: line.role,
          targetGrams: line.targetMg / 1000,
          weighedGrams: line.weighedMg === null ? null : line.weighedMg / 1000,
          toleranceGrams: line.toleranceMg === null ? null : line.toleranceMg / 1000,
          temperature: tenth(line.temperatureDeciC),
          typed: typedOf(line),
          grind: line.grind,
          ...anyBatchOf(line),
        }),
      ]
    }),
    beside: [],
    money: moneyOf(trial, cafe),
    room: roomOf(trial),
    allergenList: allergenListOf(cafe),
  })
}
