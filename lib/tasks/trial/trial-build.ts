import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import type { AllergenListId } from '@/lib/drink/allergen'
import type { Brew, MoneySettings, TrialBuild } from '@/lib/drink/trial'
import { madeAt, type Alternative } from '@/lib/drink/cost-level'
import { findMethod } from '@/lib/drink/method'
import { lineOf } from '@/lib/drink/part'
import { refOf, typedOf, type Store } from '../store/store-part'
import type { CafeMoney } from '../world'

const lists: readonly string[] = ['eu', 'us', 'philippines', 'codex'] satisfies AllergenListId[]
const isAllergenList = (word: string): word is AllergenListId => lists.includes(word)

/** The list whose allergens count in this café. */
export function allergenListOf({ allergenList }: Pick<CafeMoney, 'allergenList'>): AllergenListId {
  return isAllergenList(allergenList) ? allergenList : 'eu'
}

const tenth = (value: number | null) => (value === null ? null : value / 10)

function brewOf(
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

/** What each level of the recipe would use on the lines of this trial, in the place of what its sheet names. */
export function alternativesOf(trial: Pick<TrialRow, 'lines'>, store: Store): readonly Alternative[] {
  return trial.lines.flatMap((line) =>
    line.alternatives.flatMap((row) => {
      const part = store.get(refOf(row))
      if (!part || refOf(row) === refOf(line)) return []
      const key = String(line.position)
      const targetGrams = line.targetMg / 1000
      return [{ key, level: row.costLevel, line: lineOf(part, { key, role: part.kind, targetGrams }) }]
    }),
  )
}

/** A trial as it was made: at its cost level, with all that the level used in the place of what the sheet names. */
export function trialBuild(trial: TrialRow, store: Store, cafe: CafeMoney): TrialBuild {
  return madeAt(sheetBuild(trial, store, cafe), trial.costLevel, alternativesOf(trial, store))
}

/** Where the glass stands, and what it lets in: null while neither was measured. */
function roomOf({ recipe, vessel }: Pick<TrialRow, 'recipe' | 'vessel'>): TrialBuild['room'] {
  const temperature = tenth(recipe.roomDeciC)
  const heatLeak = vessel?.leakMilli == null ? null : vessel.leakMilli / 1000
  return temperature === null && heatLeak === null ? null : { temperature, heatLeak }
}

/** A trial as its lines name it, whatever its cost level: rows to grams, degrees and money. */
export function sheetBuild(trial: TrialRow, store: Store, cafe: CafeMoney): TrialBuild {
  const { vessel } = trial
  return {
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
      const part = store.get(refOf(line))
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
        }),
      ]
    }),
    beside: [],
    money: moneyOf(trial, cafe),
    room: roomOf(trial),
    allergenList: allergenListOf(cafe),
  }
}
