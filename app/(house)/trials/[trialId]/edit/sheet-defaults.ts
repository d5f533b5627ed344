import type { DraftGround } from '@/lib/forms/trial-draft'
import type { SheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import {
  MINUTES,
  DENSITY,
  PART_GRAMS,
  PERCENT,
  printed,
  printTyped,
  temperatureField,
  THOUSANDTHS,
} from '@/lib/forms/number-fields'
import { isPart } from '@/lib/forms/unit-choices'

const tenth = (value: number | null) => printed(value === null ? null : value / 10, temperatureField(-40, 100))
const thousandth = (value: number | null) => printed(value === null ? null : value / 1000, THOUSANDTHS)
const hundredth = (value: number | null) => printed(value === null ? null : value / 100, PERCENT)

/** g of what was typed: of a millilitre, or of a part. */
const perUnit = (line: { readonly microdensity: number | null } | undefined) =>
  line?.microdensity == null ? null : line.microdensity / 1_000_000

const refOf = (line: TrialSheet['trial']['lines'][number]) =>
  line.ingredientId
    ? `ingredient:${line.ingredientId}`
    : line.preparationId
      ? `preparation:${line.preparationId}`
      : `batch:${line.batchId}`

/** The sheet as its form fields hold it: what was typed stays as it was typed. */
export function sheetDefaults({ trial }: TrialSheet, { parts }: Pick<SheetOffer, 'parts'>) {
  return {
    name: trial.name,
    method: trial.method,
    ratioKind: trial.ratioKind ?? '',
    ratio: thousandth(trial.ratioMilli),
    retention: thousandth(trial.retentionMilli),
    extraction: hundredth(trial.extractionBp),
    strength: hundredth(trial.strengthBp),
    vesselId: trial.vesselId ?? '',
    waterTemperature: tenth(trial.waterDeciC),
    brewMinutes: printed(trial.brewSeconds === null ? null : Math.round(trial.brewSeconds / 0.6) / 100, MINUTES),
    coffeeTemperature: tenth(trial.coffeeDeciC),
    iceTemperature: tenth(trial.iceDeciC),
    iceIsWet: trial.iceIsWet ? 'on' : undefined,
    costLevelId: trial.costLevelId ?? '',
    partGrams: printed(perUnit(trial.lines.find((line) => isPart(line.unit))), PART_GRAMS),
    lines: trial.lines.map((line) => ({
      // A role that is what the ingredient is follows it when another is chosen.
      role: parts.some((part) => part.ref === refOf(line) && part.kind === line.role) ? '' : line.role,
      part: refOf(line),
      amount: printTyped(line.typed),
      unit: line.unit,
      density: isPart(line.unit) ? '' : printed(perUnit(line), DENSITY),
      densityFor: refOf(line),
      weighed: thousandth(line.weighedMg),
      tolerance: thousandth(line.toleranceMg),
      temperature: tenth(line.temperatureDeciC),
      grind: line.grind ?? '',
      note: line.note ?? '',
    })),
    steps: trial.steps.map((step) => ({ text: step.text, seconds: step.seconds === null ? '' : String(step.seconds) })),
  }
}

export type SheetDefaults = ReturnType<typeof sheetDefaults>

/** What the figures need and the form does not hold. */
export function groundOf(sheet: TrialSheet, offer: SheetOffer, cafe: { readonly currencyDigits: number }): DraftGround {
  return {
    parts: offer.parts,
    levels: offer.levels,
    alternatives: sheet.alternatives,
    vessels: offer.vessels,
    money: sheet.build.money,
    packMinor: sheet.trial.recipe.packMinor,
    currencyDigits: cafe.currencyDigits,
    room: sheet.build.room,
    allergenList: sheet.build.allergenList,
  }
}
