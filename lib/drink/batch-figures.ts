import type { Preparation } from './trial'
import { brewed } from './brewing'
import { gramsOfLine } from './contents'
import type { Figure, Tally } from './figure'
import { combine, figure, sum, tally, written } from './figure'
import { brixOf, contentsOfLine, preparationContents } from './preparation'
import type { Worked } from './preparation'
import { crystalsAt } from './solubility'
import type { Crystals } from './solubility'

/** What a batch became, one figure for each thing asked at the bench. Null where the question does not arise. */
export type BatchFigures = {
  readonly into: Figure
  readonly output: Figure
  readonly lost: Figure
  readonly density: Figure
  readonly costPerKg: Figure
  readonly syrup: {
    readonly brixBefore: Figure
    readonly brix: Figure
    readonly sugarPerGram: Figure
    readonly sugarPerMl: Figure
    /** null while Brix or storage temperature are not known */
    readonly crystals: Crystals | null
  } | null
  readonly brew: {
    readonly ratio: Figure
    readonly retention: Figure
    readonly beverage: Figure
    readonly strength: Figure
    readonly extraction: Figure
  } | null
  /** what a gram strained out kept back */
  readonly infusion: { readonly strained: Figure; readonly retention: Figure } | null
}

/**
 * What did this batch become?
 *
 *     lost = Σ m − M,   Bx before = 100 · S/Σ m,   Bx = 100 · S/M,   sugar per ml = S/V,   k = (W − B)/D
 *     infusion k = (Σ m − D − M)/D, D strained out
 *     immersion E = t·W/((1 − t)·D),   percolation E = t·B/D
 *
 * @returns  figures that are not known say what is missing; nothing here throws
 *
 * Source   balance of mass; ICUMSA SPS-4 for a syrup's density; brew.ts for both extraction formulas
 * Checked  test/unit/drink/batch-figures.test.ts
 * Limits   A syrup's loss is taken for steam, a mix's for the mix itself.
 */
export function batchFigures(preparation: Preparation): BatchFigures {
  const worked: Worked = new Map()
  const whole = preparationContents(preparation, worked)
  const into = sum(preparation.inputs.map(gramsOfLine))
  const output = whole.grams
  return {
    into: figure(into, 'g', () => preparation.inputs.map((line) => written(gramsOfLine(line).total, 1)).join(' + ')),
    output: figure(output, 'g', () => (preparation.outputGrams === null ? 'computed, not weighed' : 'weighed')),
    lost: figure(
      combine([into, output], (all, out) => all - out),
      'g',
      () => `${written(into.total, 1)} − ${written(output.total, 1)}`,
    ),
    density: figure(
      combine([output, whole.volume], (grams, ml) => grams / ml),
      'g/ml',
      () => `${written(output.total, 1)} g / ${written(whole.volume.total, 1)} ml`,
    ),
    costPerKg: figure(
      combine([whole.cost, output], (cost, grams) => (cost / grams) * 1000),
      'currency',
      () => `${written(whole.cost.total, 4)} for ${written(output.total, 1)} g`,
    ),
    syrup: preparation.kind === 'syrup' ? syrupFigures(preparation, worked) : null,
    brew: preparation.brew === null ? null : brewFigures(preparation, preparation.brew),
    infusion: preparation.kind === 'infusion' ? infusionFigures(preparation, into, output) : null,
  }
}

function syrupFigures(preparation: Preparation, worked: Worked): BatchFigures['syrup'] {
  const parts = preparation.inputs.map((line) => contentsOfLine(line, null, worked))
  const sugars = sum(parts.map((part) => part.sugars))
  const into = sum(parts.map((part) => part.grams))
  const whole = preparationContents(preparation, worked)
  const brix = brixOf(preparation, worked)
  const celsius = preparation.storageTemperature
  const kept = celsius !== null && celsius >= 0 && celsius <= 100 && brix.missing.length === 0
  return {
    brixBefore: figure(
      combine([sugars, into], (sugar, grams) => (100 * sugar) / grams),
      '°Bx',
      () => `100 · ${written(sugars.total, 1)} / ${written(into.total, 1)}`,
    ),
    brix: figure(brix, '°Bx', () =>
      preparation.brixMeasured === null
        ? `100 · ${written(whole.sugars.total, 1)} / ${written(whole.grams.total, 1)}`
        : 'measured',
    ),
    sugarPerGram: figure(
      combine([whole.sugars, whole.grams], (sugar, grams) => sugar / grams),
      'g/g',
      () => `${written(whole.sugars.total, 1)} / ${written(whole.grams.total, 1)}`,
    ),
    sugarPerMl: figure(
      combine([whole.sugars, whole.volume], (sugar, ml) => sugar / ml),
      'g/ml',
      () => `${written(whole.sugars.total, 1)} / ${written(whole.volume.total, 1)}`,
    ),
    crystals: kept ? crystalsAt(brix.total, celsius) : null,
  }
}

function infusionFigures({ inputs }: Preparation, into: Tally, output: Tally): BatchFigures['infusion'] {
  const strained = sum(inputs.filter((line) => line.strainedOut === true).map(gramsOfLine))
  const [all, dry, out] = [into, strained, output].map((one) => written(one.total, 1))
  return {
    strained: figure(strained, 'g', () => 'weighed in'),
    retention: figure(
      // Where all of it came out, the rounding of a sum is not less than nothing.
      combine([into, strained, output], (put, away, came) => {
        const kept = put - away - came
        return Math.abs(kept) < 1e-9 * put ? 0 : kept / away
      }),
      'g/g',
      () => `(${all} − ${dry} − ${out}) / ${dry}`,
    ),
  }
}

function brewFigures(preparation: Preparation, brew: NonNullable<Preparation['brew']>): BatchFigures['brew'] {
  const isDose = (line: Preparation['inputs'][number]) => line.form === 'grounds' && line.preparation === null
  const dose = sum(preparation.inputs.filter(isDose).map(gramsOfLine))
  const water = sum(preparation.inputs.filter((line) => !isDose(line)).map(gramsOfLine))
  const made = brewed(brew, dose, { water, beverage: preparation.outputGrams })
  const percent = (from: typeof made.strength, formula: () => string) =>
    figure(
      combine([from], (share) => share * 100),
      '%',
      formula,
    )
  const [d, w, b] = [dose, made.water, made.beverage].map((one) => written(one.total, 1))
  const t = written(made.strength.total, 4)
  const byLiquid = brew.brewing === 'immersion'
  return {
    ratio: figure(
      combine([dose, water], (coffee, all) => all / coffee),
      'g/g',
      () => `${w} / ${d}, water in per gram of coffee`,
    ),
    retention:
      preparation.outputGrams === null
        ? figure(tally(brew.retention ?? 2, '', ['retention 2 g per g, common practice']), 'g/g', () => 'not measured')
        : figure(
            combine([water, made.beverage, dose], (all, out, coffee) => (all - out) / coffee),
            'g/g',
            () => `(${w} − ${b}) / ${d}`,
          ),
    beverage: figure(made.beverage, 'g', () => (preparation.outputGrams === null ? `${w} − 2 · ${d}` : 'weighed')),
    strength: percent(made.strength, () => (brew.strengthPercent === null ? 'from the extraction' : 'measured')),
    extraction: percent(made.extraction, () =>
      byLiquid ? `immersion: ${t} · ${w} / ((1 − ${t}) · ${d})` : `percolation: ${t} · ${b} / ${d}`,
    ),
  }
}
