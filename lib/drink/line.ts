import { brewed, retentionOf } from './brewing'
import type { BuildFigures, BuildLine, LineFigures, TrialBuild } from './trial'
import { gramsOfLine } from './contents'
import type { Tally } from './figure'
import { figure, sum, times, written } from './figure'
import { isBrewed } from './instant'
import type { Poured } from './glass'
import { USUAL_SCALES, type Scale, type Scales } from './house-scales'
import { SOURCE } from './source'
import { ICE_DENSITY } from './vessel'

/**
 * What does one line of the trial bring, and was it weighed right?
 *
 * @param currency  the word for money, used as the unit of cost
 *
 * Source   the contents of the line
 * Checked  test/unit/drink/line.test.ts
 */
export function lineFigures({ line, contents }: Poured, currency: string): LineFigures {
  const counted = gramsOfLine(line)
  const ice = line.form === 'ice' && !line.preparation
  const volume = ice ? times(counted, 1 / ICE_DENSITY) : contents.volume
  const grams = () => `${written(contents.grams.total)} g of ${line.name}`
  const off = line.weighedGrams === null ? null : line.weighedGrams - line.targetGrams
  return {
    key: line.key,
    name: line.name,
    grams: counted.total,
    inGlass: figure(contents.grams, 'g', grams, [SOURCE.massBalance]),
    volume: figure(volume, 'ml', () => `${grams()} / ${written(contents.grams.total / volume.total, 4)} g/ml`, [
      SOURCE.own,
    ]),
    sugars: figure(contents.sugars, 'g', () => `${grams()} · ${perHundred(contents.sugars, contents.grams)} %`, [
      SOURCE.own,
    ]),
    cost: figure(contents.cost, currency, () => `${written(counted.total)} g at ${perGram(contents.cost, counted)}`, [
      SOURCE.cost,
    ]),
    offTarget: off === null ? null : { grams: off, within: Math.abs(off) <= toleranceOf(line) + 1e-9 },
  }
}

const perHundred = (part: Tally, whole: Tally) => written((100 * part.total) / whole.total)
const perGram = (cost: Tally, grams: Tally) => `${written(cost.total / grams.total, 6)} per g`

type Dosed = Pick<BuildLine, 'toleranceGrams' | 'targetGrams' | 'kind' | 'form'>

/** Which of the house's scales is this weighed on? Milk, water and ice are poured under the glass, all else is a dose. */
export function scaleOf({ kind, form }: Pick<BuildLine, 'kind' | 'form'>, scales: Scales): Scale {
  return form !== 'grounds' && (kind === 'milk' || kind === 'water' || kind === 'ice') ? scales.pours : scales.doses
}

/**
 * How far off may a weight be?
 *
 *     as the line says, for each glass;  else 2 % of what is weighed, down to whole divisions of its scale;  at least one division
 *
 * @param glasses  weighed together, 1 or more
 * @param scales   that the house weighs on
 * @returns        ± g
 *
 * Source   common practice, no source
 * Checked  test/unit/drink/line.test.ts
 */
export function toleranceOf(line: Dosed, glasses = 1, scales: Scales = USUAL_SCALES): number {
  const { division } = scaleOf(line, scales)
  if (line.toleranceGrams !== null) return Math.max(line.toleranceGrams * glasses, division)
  // what is printed is what is held against: a scale shows no part of a division
  return Math.max(1, Math.floor((0.02 * line.targetGrams * glasses) / division + 1e-9)) * division
}

/** A scale too coarse for a dose, and how many glasses make a dose that it can weigh. */
export type TooCoarse = { readonly scale: Scale; readonly glasses: number }

/**
 * Can this be weighed on its scale at all?
 *
 *     too coarse where half a division is more than 5 % of the dose;  glasses = ⌈division / (2 · 0.05 · dose)⌉
 *
 * @param glasses  weighed together
 * @returns        null where it can
 *
 * Source   common practice, no source
 * Checked  test/unit/drink/line.test.ts
 */
export function tooCoarseFor(line: Dosed, glasses = 1, scales: Scales = USUAL_SCALES): TooCoarse | null {
  const scale = scaleOf(line, scales)
  const needed = scale.division / (2 * 0.05)
  const can = !(line.targetGrams > 0) || line.targetGrams * glasses >= needed * (1 - 1e-9)
  return can ? null : { scale, glasses: Math.ceil((needed / line.targetGrams) * (1 - 1e-9)) }
}

/**
 * What do the grounds poured straight into this glass make?
 *
 * @returns  null when the coffee comes from a preparation or a bottle
 *
 * Source   `brewed`
 * Checked  test/unit/drink/line.test.ts
 */
export function brewFigures({ brew, lines }: TrialBuild): BuildFigures['brew'] {
  const grounds = lines.filter((line) => isBrewed(line, brew))
  if (brew === null || grounds.length === 0) return null
  const { dose, water, beverage, strength, extraction } = brewed(brew, sum(grounds.map(gramsOfLine)), null)
  const from = [brew.brewing === 'immersion' ? SOURCE.immersion : SOURCE.brewRange, SOURCE.massBalance]
  const d = () => written(dose.total)
  const e = () => written(extraction.total, 4)
  const t = () => written(strength.total, 5)
  const immersed = brew.brewing === 'immersion'
  const measured = brew.strengthPercent !== null
  const made = () =>
    brew.brewing === 'dissolved'
      ? `${written(water.total)} + ${d()}`
      : brew.ratioKind === 'beverage-out'
        ? `${d()} · ${written(brew.ratio ?? 0)}`
        : `${written(water.total)} − ${written(retentionOf(brew).total)} · ${d()}`
  const strong = () =>
    immersed
      ? `100 · ${e()} · ${d()} / (${written(water.total)} + ${e()} · ${d()})`
      : `100 · ${e()} · ${d()} / ${written(beverage.total)}`
  const drawn = () =>
    immersed
      ? `100 · ${t()} · ${written(water.total)} / ((1 − ${t()}) · ${d()})`
      : `100 · ${t()} · ${written(beverage.total)} / ${d()}`
  return {
    beverage: figure(beverage, 'g', made, from),
    strength: figure(
      times(strength, 100),
      '%',
      () => (measured ? `${written(100 * strength.total, 3)}, measured` : strong()),
      from,
    ),
    extraction: figure(
      times(extraction, 100),
      '%',
      () => (measured ? drawn() : `${written(100 * extraction.total)}, as given or assumed`),
      from,
    ),
  }
}
