import { brewed, retentionOf } from './brewing'
import type { BuildFigures, BuildLine, LineFigures, TrialBuild } from './trial'
import { gramsOfLine } from './contents'
import type { Tally } from './figure'
import { figure, sum, times, written } from './figure'
import { isBrewed } from './instant'
import type { Poured } from './glass'
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

/** How far off may a weight be? As the line says, else 2 g or 2 %, whichever is more (common practice). */
export function toleranceOf(line: Pick<BuildLine, 'toleranceGrams' | 'targetGrams'>): number {
  return line.toleranceGrams ?? Math.max(2, 0.02 * line.targetGrams)
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
