import { demand } from '@/lib/base/demand'
import { brewed } from './brewing'
import { gramsOfLine } from './contents'
import { tally, type Tally } from './figure'
import { AS_ON_SHEET, withCorrectedDoses, type CorrectedDose, type ForToday, type UnreadDose } from './for-today'
import type { BuildLine, TrialBuild } from './trial'
import { isBrewed } from './instant'
import { decimalsOf, type Scales } from './house-scales'
import { scaleOf, tooCoarseFor, toleranceOf, type TooCoarse } from './line'
import { contentsOfLine } from './preparation'
import { pressesFor, type Presses } from './presses'
import { PERCENT } from './unit'

/** How grounds are brewed: the dry dose, how far it may be off, its grind; water, °C and s. Null where not known. */
export type BrewStep = {
  readonly dose: number
  readonly tolerance: number
  /** that the scale shows */
  readonly decimals: number
  readonly water: number | null
  readonly grind: string | null
  readonly waterTemperature: number | null
  readonly seconds: number | null
}

/** One step beside the scale: what to add, and what the scale then shows. Grams; null where not known. */
export type ScaleStep = {
  readonly key: string
  readonly name: string
  /** To add, with the scale tared just before. */
  readonly add: number | null
  /** of what is added */
  readonly tolerance: number
  /** that the scale shows */
  readonly decimals: number
  /** On the scale if it was tared only once, under the empty vessel. */
  readonly running: number | null
  /** What to brew first, for grounds. */
  readonly brew: BrewStep | null
  /** The scale on which such a dose is weighed cannot weigh this one. */
  readonly tooCoarse: TooCoarse | null
  /** Presses of its pump that this is, where it was typed so or the house measured one. */
  readonly presses: Presses | null
  /** Another dose than the sheet's, of the batch that is poured today: it and the sheet's, grams. */
  readonly corrected: Pick<CorrectedDose, 'batch' | 'sheetGrams'> | null
  /** The sheet's dose does not hold for the batch that is poured today, and nobody can say which does. */
  readonly unread: UnreadDose | null
  readonly missing: readonly string[]
}

/** Most glasses built at once; more is a batch, and a batch is weighed anew. */
export const MOST_GLASSES = 12

const wholeGlasses = (glasses: number) =>
  demand(
    Number.isInteger(glasses) && glasses >= 1 && glasses <= MOST_GLASSES,
    `glasses must be a whole number from 1 to ${MOST_GLASSES}, got ${glasses}`,
  )

/**
 * What is this trial for several glasses?
 *
 *     every target, weight and tolerance · n
 *
 * @param glasses  n, whole, 1 to 12
 * @throws RangeError  any other number
 *
 * Source   linear scaling
 * Checked  test/unit/drink/scale.test.ts
 * Limits   Brewing and simmering do not scale so: a batch changed more than twofold is weighed anew.
 */
export function scaleBuild(build: TrialBuild, glasses: number): TrialBuild {
  wholeGlasses(glasses)
  const more = (grams: number | null) => (grams === null ? null : grams * glasses)
  const { vessel, money } = build
  return {
    ...build,
    vessel: vessel && { ...vessel, brimMl: vessel.brimMl * glasses, fillMl: more(vessel.fillMl) },
    money: { ...money, packagingCost: more(money.packagingCost), menuPrice: more(money.menuPrice) },
    lines: build.lines.map((line) => ({
      ...line,
      targetGrams: line.targetGrams * glasses,
      weighedGrams: more(line.weighedGrams),
      toleranceGrams: toleranceOf(line, glasses),
      typed:
        line.typed && line.typed.unit !== PERCENT ? { ...line.typed, amount: line.typed.amount * glasses } : line.typed,
    })),
  }
}

/** Steps in build order, and the final mass that checks them all. */
export type ScaleSheet = {
  readonly steps: readonly ScaleStep[]
  readonly finalGrams: number | null
  readonly tolerance: number
  /** of the final mass: those of the coarsest scale in it */
  readonly decimals: number
}

/**
 * What does one do at the scale, step by step?
 *
 *     running = Σ of what was added so far;  final mass = the last running weight
 *
 * @param glasses  built together in one jug, 1 to 12; for glasses apart use 1 and repeat
 * @param today    doses that are corrected for the batch poured today, and pumps; left out: as the sheet says
 *
 * Source   sum of targets; grounds enter as their beverage
 * Checked  test/unit/drink/scale.test.ts
 * Limits   Tolerances of the final mass add as squares, as for independent slips.
 */
export function scaleSheet(build: TrialBuild, glasses: number, today: ForToday = AS_ON_SHEET): ScaleSheet {
  wholeGlasses(glasses)
  let running: number | null = 0
  const { scales } = today
  const steps: ScaleStep[] = []
  for (const line of withCorrectedDoses(build, today).lines) {
    const dose = today.corrected[line.key]
    const unread = today.unread[line.key]
    const amount = unread ? tally(null, `°Bx of batch ${unread.batch} or of the one before it`) : amountOf(line, build)
    const add = amount.missing.length > 0 ? null : amount.total * glasses
    running = running === null || add === null ? null : running + add
    const brew = isBrewed(line, build.brew) ? brewStep(line, build.brew, { glasses, scales }) : null
    // what the line says of its tolerance it says of the dry dose; the beverage is poured by the rule of its own weight
    const poured: BuildLine = { ...line, form: 'liquid', targetGrams: amount.total, toleranceGrams: null }
    steps.push({
      key: line.key,
      name: line.name,
      add,
      tolerance: toleranceOf(brew ? poured : line, glasses, scales),
      decimals: decimalsOf(scaleOf(brew ? poured : line, scales).division),
      running,
      brew,
      tooCoarse: tooCoarseFor(line, glasses, scales),
      presses: unread ? null : pressesFor(line, line.targetGrams * glasses, today.pressGrams[line.key] ?? null),
      corrected: dose ? { batch: dose.batch, sheetGrams: dose.sheetGrams * glasses } : null,
      unread: unread ? { batch: unread.batch, sheetGrams: unread.sheetGrams * glasses } : null,
      missing: amount.missing,
    })
  }
  const tolerance = Math.sqrt(steps.reduce((squares, step) => squares + step.tolerance ** 2, 0))
  const decimals = steps.length === 0 ? 1 : Math.min(...steps.map((step) => step.decimals))
  return { steps, finalGrams: steps.length === 0 ? null : running, tolerance, decimals }
}

type Weighed = { readonly glasses: number; readonly scales: Scales }

function brewStep(line: BuildLine, brew: TrialBuild['brew'], { glasses, scales }: Weighed): BrewStep {
  const water = brew === null ? null : brewed(brew, gramsOfLine({ ...line, weighedGrams: null }), null).water
  return {
    dose: line.targetGrams * glasses,
    tolerance: toleranceOf(line, glasses, scales),
    decimals: decimalsOf(scaleOf(line, scales).division),
    water: water === null || water.missing.length > 0 ? null : water.total * glasses,
    grind: line.grind,
    waterTemperature: brew?.waterTemperature ?? null,
    seconds: brew?.seconds ?? null,
  }
}

function amountOf(line: BuildLine, build: TrialBuild): Tally {
  return contentsOfLine({ ...line, weighedGrams: null }, build.brew).grams
}

/** g */
const A_SPECK = 1e-6

/** Is what the scale shows right? @param grams shown, @param wanted and tolerance of the step */
export function onTarget(grams: number, wanted: number, tolerance: number): 'under' | 'right' | 'over' {
  // 0.7 + 0.1 is a little under 0.8 in a computer: a speck beyond is not beyond
  if (grams < wanted - tolerance - A_SPECK) return 'under'
  return grams > wanted + tolerance + A_SPECK ? 'over' : 'right'
}
