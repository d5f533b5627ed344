import { MOST_KEPT, MOST_RATIO, brewed, retentionOf, type Brewed } from './brewing'
import type { Brew, BuildLine, Preparation, TrialBuild } from './trial'
import { MOST_GRAMS, gramsOfLine } from './contents'
import type { Problem } from './figure'
import { sum, written } from './figure'
import {
  FOOD_DENSITY,
  LIQUID_DENSITY,
  compositionProblems,
  densityProblems,
  doubtful,
  isFoodDensity,
  only,
  wrong,
} from './ingredient-problem'
import { innermostFirst, preparationsOf } from './nesting'
import { isNotInDate, lostMoreThanWater, preparationContents } from './preparation'
import type { Worked } from './preparation'
import { isSheetUnit, isVolumeUnit } from './unit'

/** Is a brew possible? @param field prefix of the field names */
function brewProblems(field: string, brew: Brew): readonly Problem[] {
  const { ratio, ratioKind, extractionPercent, strengthPercent, retention } = brew
  const kept = retentionOf(brew).total
  const percent = (value: number | null) => value !== null && !(value > 0 && value < 100)
  return only([
    wrong(ratio !== null && !(ratio > 0), `${field}.ratio`, 'The brew ratio must be more than zero.'),
    wrong(ratio !== null && ratio >= MOST_RATIO, `${field}.ratio`, 'The brew ratio is far too thin to be coffee.'),
    wrong(
      ratio !== null && ratioKind === null,
      `${field}.ratioKind`,
      'Say what the brew ratio counts: water poured in, or beverage that came out.',
    ),
    wrong(
      ratio !== null && ratio > 0 && ratioKind === 'water-in' && brew.brewing !== 'dissolved' && ratio <= kept,
      `${field}.ratio`,
      `The grounds keep ${written(kept)} g of water per g of coffee, so 1:${written(ratio ?? 0)} would leave nothing to pour.`,
    ),
    wrong(
      retention !== null && !(retention >= 0 && retention <= MOST_KEPT),
      `${field}.retention`,
      'What the grounds keep lies between 0 and 20 g per g.',
    ),
    wrong(percent(extractionPercent), `${field}.extractionPercent`, 'Extraction must lie between 0 and 100 %.'),
    wrong(percent(strengthPercent), `${field}.strengthPercent`, 'Strength must lie between 0 and 100 %.'),
  ])
}

/** % of the dose: about what water can draw from roast coffee at most; beyond it a strength or a weight is looked at again. Common practice, no source. */
const MOST_DRAWN = 30

/** Does the strength that was measured go with the dose? @param made the brew worked out from it */
function drawnProblems(field: string, brew: Brew, made: Brewed): readonly Problem[] {
  if (brew.strengthPercent === null || brew.brewing === 'dissolved' || made.extraction.missing.length > 0) return []
  const percent = 100 * made.extraction.total
  const said = `A strength of ${written(brew.strengthPercent)} % would mean that ${written(percent, 0)} % of the coffee dissolved`
  return only([
    wrong(percent > 100, `${field}.strengthPercent`, `${said}: more than there is. Read the strength, or weigh again.`),
    doubtful(
      percent > MOST_DRAWN && percent <= 100,
      `${field}.strengthPercent`,
      `${said}; about ${MOST_DRAWN} % can. Read the strength, or weigh again.`,
    ),
  ])
}

/** °C between which what is poured lies: ice from the coldest freezer, and a syrup that boils. Common practice, no source. */
const POURED = { ice: -60, least: -10, most: 120 } as const

function temperatureProblem(field: string, { name, form, preparation, temperature }: BuildLine): Problem | false {
  if (temperature === null) return false
  const isIce = form === 'ice' && preparation === null
  return isIce
    ? wrong(!(temperature >= POURED.ice && temperature <= 0), field, `${name}: ice is between ${POURED.ice} and 0 °C.`)
    : wrong(
        !(temperature >= POURED.least && temperature <= POURED.most),
        field,
        `${name}: what is poured lies between ${POURED.least} and ${POURED.most} °C.`,
      )
}

const AMISS = `a food weighs between ${FOOD_DENSITY.least} and ${FOOD_DENSITY.most} g per ml`
const isLiquid = (density: number) => density >= LIQUID_DENSITY.least && density <= LIQUID_DENSITY.most

/** Was the density that counts here measured by nobody? One typed on the line counts instead of it. */
function assumedDensity(field: string, { name, density, densityIsAssumed, typed }: BuildLine): Problem | false {
  const counted = typed?.density ?? density
  return doubtful(
    densityIsAssumed === true && counted !== null && counted === density,
    field,
    `${name}: ${written(density ?? 0, 3)} g per ml is assumed, the usual of its like. Weigh 100 ml of yours, and enter it in the store.`,
  )
}

/** Is a line possible, apart from what is poured into it? @param field prefix */
function lineProblems(field: string, line: BuildLine): readonly Problem[] {
  const { name, typed, composition, preparation } = line
  const volume = typed !== null && isVolumeUnit(typed.unit)
  // Asked for below: the amount is there, only what a millilitre weighs is not.
  const unweighable = volume && typed.density === null
  const unknownUnit = typed !== null && !isSheetUnit(typed.unit)
  const syrup = line.kind === 'sweetener' && line.form === 'liquid' ? (composition?.sugars ?? null) : null
  const heavy = (grams: number | null) => grams !== null && grams > MOST_GRAMS
  return only([
    wrong(heavy(line.targetGrams), `${field}.targetGrams`, `${name}: over a tonne. Is the unit right?`),
    wrong(heavy(line.weighedGrams), `${field}.weighedGrams`, `${name}: over a tonne. Is the unit right?`),
    wrong(
      !(line.targetGrams > 0) && !unweighable,
      `${field}.targetGrams`,
      `The amount of ${name} must be more than zero.`,
    ),
    wrong(
      line.weighedGrams !== null && !(line.weighedGrams > 0),
      `${field}.weighedGrams`,
      `The weight of ${name} must be more than zero.`,
    ),
    wrong(
      line.toleranceGrams !== null && !(line.toleranceGrams >= 0),
      `${field}.toleranceGrams`,
      `The tolerance of ${name} must not be negative.`,
    ),
    wrong(
      typed !== null && !(typed.amount > 0),
      `${field}.typed.amount`,
      `The amount of ${name} must be more than zero.`,
    ),
    wrong(unknownUnit, `${field}.typed.unit`, `${name}: ${typed?.unit} is not a unit we know.`),
    wrong(
      typed?.density != null && !isFoodDensity(typed.density),
      `${field}.typed.density`,
      `${name}: ${AMISS}, not ${written(typed?.density ?? 0, 3)}.`,
    ),
    doubtful(
      volume &&
        line.form === 'liquid' &&
        typed.density !== null &&
        isFoodDensity(typed.density) &&
        !isLiquid(typed.density),
      `${field}.typed.density`,
      `${name}: a liquid weighs between ${LIQUID_DENSITY.least} and ${LIQUID_DENSITY.most} g per ml, not ${written(typed?.density ?? 0, 3)}. Weigh 100 ml to be sure.`,
    ),
    assumedDensity(`${field}.density`, line),
    temperatureProblem(`${field}.temperature`, line),
    wrong(
      unweighable,
      `${field}.typed.density`,
      `${name} was typed by volume, so its density is needed to know its weight.`,
    ),
    wrong(
      line.costPerGram !== null && !(line.costPerGram >= 0),
      `${field}.costPerGram`,
      `The cost of ${name} must not be negative.`,
    ),
    ...(line.form === 'liquid' && preparation === null
      ? densityProblems(`${field}.density`, name, line.density, syrup)
      : only([
          wrong(
            line.density !== null && !isFoodDensity(line.density),
            `${field}.density`,
            `${name}: ${AMISS}, not ${written(line.density ?? 0, 3)}.`,
          ),
        ])),
    ...(composition === null ? [] : compositionProblems(`${field}.composition`, name, composition)),
  ])
}

/** What is wrong with one preparation, field names beginning at itself; what stands in it is looked at on its own. */
type Looked = {
  readonly own: readonly Problem[]
  readonly lines: readonly (readonly Problem[])[]
  readonly flawed: boolean
}

const placeOf = (line: BuildLine, index: number) => line.key || String(index)

/** Is a batch possible? Output against input, Brix against balance. @param insideFlawed whether something in it is not */
function lookAt(preparation: Preparation, insideFlawed: boolean, worked: Worked): Looked {
  const { name, outputGrams: output, brixMeasured: brix, brew } = preparation
  const put = preparation.inputs.reduce((total, line) => total + (line.weighedGrams ?? line.targetGrams), 0)
  const brixWrong = brix !== null && !(brix >= 0 && brix <= 100)
  const lines = preparation.inputs.map((line, index) => lineProblems(`inputs.${placeOf(line, index)}`, line))
  const inside = insideFlawed || lines.some((found) => found.length > 0)
  const sound = !inside && output !== null && output > 0 && output <= put * (1 + 1e-9)
  const own = only([
    wrong(
      isNotInDate(preparation),
      'inputs',
      `No batch of ${name} is in date: make one, or name something else in its place.`,
    ),
    wrong(preparation.inputs.length === 0 && !isNotInDate(preparation), 'inputs', `Say what goes into ${name}.`),
    wrong(output !== null && !(output > 0), 'outputGrams', `The output of ${name} must be more than zero.`),
    wrong(
      output !== null && output > put * (1 + 1e-9),
      'outputGrams',
      `${name} weighs ${written(output ?? 0)} g after, but only ${written(put)} g went in. Was the pot tared?`,
    ),
    wrong(
      preparation.densityMeasured !== null && !isFoodDensity(preparation.densityMeasured),
      'densityMeasured',
      `${name}: ${AMISS}, not ${written(preparation.densityMeasured ?? 0, 3)}.`,
    ),
    wrong(brixWrong, 'brixMeasured', `Brix of ${name} must lie between 0 and 100.`),
    ...(sound && !brixWrong ? balanceProblems(preparation, worked) : []),
    ...(brew === null ? [] : brewProblems('brew', brew)),
    ...(brew === null || !sound ? [] : drawnProblems('brew', brew, brewedBatch(preparation, brew))),
  ])
  return { own, lines, flawed: inside || own.length > 0 }
}

const isGrounds = ({ form, preparation }: BuildLine) => form === 'grounds' && preparation === null

/** A batch's brew by what was weighed into it and out of it. */
function brewedBatch({ inputs, outputGrams }: Preparation, brew: Brew): Brewed {
  const grams = (of: readonly BuildLine[]) => sum(of.map(gramsOfLine))
  const water = grams(inputs.filter((line) => !isGrounds(line)))
  return brewed(brew, grams(inputs.filter(isGrounds)), { water, beverage: outputGrams })
}

/** Every one of these preparations and all within them, each looked at once. */
function lookWithin(poured: readonly Preparation[], worked: Worked): ReadonlyMap<Preparation, Looked> {
  const { order, loops } = innermostFirst(poured, ({ inputs }) => preparationsOf(inputs))
  const looked = new Map<Preparation, Looked>()
  for (const preparation of order) {
    const loop = loops.get(preparation)
    const held = preparationsOf(preparation.inputs)
    const found = lookAt(
      preparation,
      held.some((inner) => looked.get(inner)?.flawed ?? true),
      worked,
    )
    const names = loop?.map((one) => one.name).join(' → ')
    const around = only([wrong(loop !== undefined, '', `${preparation.name} contains itself: ${names}.`)])
    looked.set(preparation, { ...found, own: [...around, ...found.own], flawed: found.flawed || loop !== undefined })
  }
  return looked
}

/** A line's own problems, then those of what is poured into it; a preparation poured again has been said where it came first. */
function problemsOfLines(lines: readonly BuildLine[], worked: Worked): readonly Problem[] {
  const looked = lookWithin(preparationsOf(lines), worked)
  const said = new Set<Preparation>()
  const all: (readonly Problem[])[] = []
  type Place = { readonly field: string; readonly line: BuildLine; readonly own: readonly Problem[] }
  const toSay: Place[] = lines
    .map((line, index): Place => {
      const field = `lines.${placeOf(line, index)}`
      return { field, line, own: lineProblems(field, line) }
    })
    .reverse()
  for (let place = toSay.pop(); place; place = toSay.pop()) {
    all.push(place.own)
    const { preparation } = place.line
    const found = preparation === null ? undefined : looked.get(preparation)
    if (preparation === null || !found || said.has(preparation)) continue
    said.add(preparation)
    const at = `${place.field}.preparation`
    const under = (problems: readonly Problem[]) =>
      problems.map((one) => ({ ...one, field: one.field === '' ? at : `${at}.${one.field}` }))
    all.push(under(found.own))
    for (let index = preparation.inputs.length - 1; index >= 0; index--) {
      const line = preparation.inputs[index]
      if (line)
        toSay.push({ field: `${at}.inputs.${placeOf(line, index)}`, line, own: under(found.lines[index] ?? []) })
    }
  }
  return all.flat()
}

/**
 * What in this batch cannot be right, or should be looked at again?
 *
 * @returns  those of what stands in it first, then its own
 *
 * Source   as `problemsOfBuild`
 * Checked  test/unit/drink/problem.test.ts
 */
export function problemsOfPreparation(preparation: Preparation, worked: Worked = new Map()): readonly Problem[] {
  return [...lookWithin([preparation], worked).values()].flatMap(({ own, lines }) => [...lines.flat(), ...own])
}

function balanceProblems(preparation: Preparation, worked: Worked): readonly Problem[] {
  const { name, kind, brixMeasured, densityMeasured } = preparation
  const { sugars, grams } =
    brixMeasured === null
      ? preparationContents(preparation, worked)
      : preparationContents({ ...preparation, brixMeasured: null }, worked)
  const known = sugars.missing.length === 0 && grams.missing.length === 0 && grams.total > 0
  const computed = known ? (100 * sugars.total) / grams.total : null
  const syrupBrix = kind === 'syrup' ? (brixMeasured ?? computed) : null
  return only([
    wrong(
      lostMoreThanWater(preparation, worked),
      'outputGrams',
      `${name} weighs less than the sugar and solids that went in. Was it weighed whole?`,
    ),
    doubtful(
      kind !== 'brew' &&
        brixMeasured !== null &&
        computed !== null &&
        // what an infusion took up the refractometer reads, and the weights do not say
        (kind === 'infusion' ? computed - brixMeasured : Math.abs(brixMeasured - computed)) > 1,
      'brixMeasured',
      `${name} reads ${written(brixMeasured ?? 0, 1)} Brix, but its weights say ${written(computed ?? 0, 1)}. Weigh or read again.`,
    ),
    ...densityProblems('densityMeasured', name, densityMeasured, syrupBrix),
  ])
}

/**
 * What in this trial cannot be right?
 *
 * @returns  each with the field it belongs beside (`lines.<key>.targetGrams`); empty when all is possible
 *
 * Source   our own rules, listed in the functions above
 * Checked  test/unit/drink/problem.test.ts
 * Limits   Possible is not right: it does not know the café's recipe.
 */
export function problemsOfBuild(build: TrialBuild, worked: Worked = new Map()): readonly Problem[] {
  const { vessel, money, iceTemperature: ice, coffeeTemperature: hot, lines, brew } = build
  const fraction = (value: number | null) => value !== null && !(value >= 0 && value <= 1)
  const negative = (value: number | null) => value !== null && !(value >= 0)
  return only([
    wrong(lines.length === 0, 'lines', 'A trial needs at least one line.'),
    wrong(vessel !== null && !(vessel.brimMl > 0), 'vessel.brimMl', 'A vessel must hold more than zero ml.'),
    wrong(
      vessel?.fillMl != null && (!(vessel.fillMl > 0) || vessel.fillMl > vessel.brimMl),
      'vessel.fillMl',
      'The fill line must lie between the bottom and the brim.',
    ),
    wrong(
      ice !== null && !(ice >= POURED.ice && ice <= 0),
      'iceTemperature',
      `Ice is at 0 °C or colder, and no freezer is colder than ${POURED.ice} °C.`,
    ),
    wrong(hot !== null && !(hot >= -5 && hot <= 100), 'coffeeTemperature', 'Coffee is poured between −5 and 100 °C.'),
    wrong(fraction(money.wasteFraction), 'money.wasteFraction', 'The waste allowance must lie between 0 and 100 %.'),
    wrong(fraction(money.taxFraction), 'money.taxFraction', 'The tax rate must lie between 0 and 100 %.'),
    wrong(
      money.targetCostFraction !== null && !(money.targetCostFraction > 0 && money.targetCostFraction <= 1),
      'money.targetCostFraction',
      'The target cost share must lie above 0 and up to 100 %.',
    ),
    wrong(negative(money.menuPrice), 'money.menuPrice', 'A price must not be negative.'),
    wrong(negative(money.packagingCost), 'money.packagingCost', 'A cost must not be negative.'),
    wrong(negative(money.fixedCost), 'money.fixedCost', 'A cost must not be negative.'),
    wrong(
      brew?.brewing === 'dissolved' && lines.some(isGrounds),
      'brew.method',
      'Ground coffee does not dissolve: choose how it is brewed, or use instant coffee.',
    ),
    ...(brew === null ? [] : brewProblems('brew', brew)),
    ...(brew === null || !lines.some(isGrounds)
      ? []
      : drawnProblems('brew', brew, brewed(brew, sum(lines.filter(isGrounds).map(gramsOfLine)), null))),
    ...problemsOfLines(lines, worked),
  ])
}
