import { brewed } from './brewing'
import type { Brew, BuildFigures } from './trial'
import { CAFFEINE_RELEASE } from './caffeine'
import type { Measure } from './contents'
import { gramsOfLine, together } from './contents'
import type { Figure } from './figure'
import { combine, figure, sum, times, written } from './figure'
import type { Poured } from './glass'
import { addends } from './glass'
import { SOURCE } from './source'
import { SUGAR_GUIDES, shareOfGuide } from './sugar'

type Intake = Pick<
  BuildFigures,
  'sugars' | 'freeSugars' | 'sugarSources' | 'shares' | 'sweetness' | 'fat' | 'protein' | 'energy' | 'caffeine'
>

/**
 * What does the guest take in?
 *
 *     each measure = Σ over the lines;   share = free sugars / guide;   caffeine from the lowest to the highest
 *
 * @param poured  every line of the trial with what it brings
 * @param brew    of the grounds among them
 *
 * Source   composition kept with each ingredient; WHO 2015 and US FDA for the shares
 * Checked  test/unit/drink/build.test.ts, test/reference/sugar-guides.test.ts
 * Limits   Free sugars leave out the lactose of milk. Not a nutrition label.
 */
export function intakeFigures(poured: readonly Poured[], brew: Brew | null): Intake {
  const total = (measure: Measure) => sum(poured.map(({ contents }) => contents[measure]))
  const working = (measure: Measure) =>
    addends(poured.map(({ line, contents }) => ({ name: line.name, amount: contents[measure] })))
  const added = (measure: Measure, unit: string, sources: readonly string[] = [SOURCE.own]): Figure =>
    figure(total(measure), unit, () => working(measure), sources)
  const free = total('freeSugars')
  const share = (guide: keyof typeof SUGAR_GUIDES, source: string): Figure =>
    figure(
      combine([free], (grams) => (grams >= 0 ? 100 * shareOfGuide(grams, guide) : Number.NaN)),
      '%',
      () => `100 · ${written(free.total)} / ${SUGAR_GUIDES[guide]}`,
      [source],
    )
  return {
    sugars: added('sugars', 'g'),
    freeSugars: added('freeSugars', 'g'),
    sugarSources: sugarSources(poured),
    shares: { who: share('who', SOURCE.who), whoLower: share('whoLower', SOURCE.who), fda: share('fda', SOURCE.fda) },
    sweetness: added('sweetness', 'g sucrose', [SOURCE.sweetness]),
    fat: added('fat', 'g'),
    protein: added('protein', 'g'),
    energy: added('energy', 'kcal', [SOURCE.own, SOURCE.usda]),
    caffeine: caffeineFigure(poured, () => caffeineWorking(poured, brew)),
  }
}

/** One part that is not stated never hides what the others bring: the figure warns, and may not get smaller by not knowing. */
function caffeineFigure(poured: readonly Poured[], working: () => string): BuildFigures['caffeine'] {
  const [low, high] = caffeineOf(poured)
  const shown = figure(times(sum([low, high]), 0.5), 'mg', working, [SOURCE.caffeineModel, SOURCE.efsa])
  if (shown.known) return { ...shown, low: low.total, high: high.total }
  // A sum that is not finished holds what is known of it, down through every batch.
  const stated = poured.filter(({ contents }) => contents.caffeineHigh.total > 0)
  const of = [...new Set(stated.map(({ line }) => line.name))]
  return stated.length === 0 ? shown : { ...shown, atLeast: { low: low.total, high: high.total, of } }
}

const caffeineOf = (poured: readonly Poured[]) =>
  [
    sum(poured.map(({ contents }) => contents.caffeineLow)),
    sum(poured.map(({ contents }) => contents.caffeineHigh)),
  ] as const

function caffeineWorking(poured: readonly Poured[], brew: Brew | null): string {
  const parts = poured
    .filter(({ contents }) => contents.caffeineHigh.total > 0)
    .map(({ line, contents }) => {
      const { caffeineLow: low, caffeineHigh: high } = contents
      const range = `${written(low.total, 0)} to ${written(high.total, 0)} (${line.name})`
      if (line.form !== 'grounds' || line.preparation || brew === null) return range
      const dose = gramsOfLine(line)
      const perGram = (mg: number | null | undefined) => `${written((mg ?? 0) / 100)} mg/g`
      const ends = `${perGram(line.composition?.caffeineLow)} less 30 % to ${perGram(line.composition?.caffeineHigh)} and 30 % more`
      const { served } = brewed(brew, dose, null)
      const factors = `${written(CAFFEINE_RELEASE[brew.brewing], 3)} released · ${written(served.total, 3)} served`
      return `${range}: ${written(dose.total)} g · (${ends}) · ${factors}`
    })
  return parts.join(' + ') || '0'
}

/** Sugar by ingredient, largest first, the same name added up; what is not known is left to the total's figure. */
function sugarSources(poured: readonly Poured[]): BuildFigures['sugarSources'] {
  const byName = new Map<string, { grams: number; free: number | null }>()
  for (const { name, sugars, free } of together(poured.map(({ contents }) => contents)).sources) {
    if (sugars.missing.length > 0 || sugars.total === 0) continue
    const before = byName.get(name) ?? { grams: 0, free: 0 }
    const freeToo = free.missing.length > 0 || before.free === null ? null : before.free + free.total
    byName.set(name, { grams: before.grams + sugars.total, free: freeToo })
  }
  return [...byName].map(([name, part]) => ({ name, ...part })).sort((a, b) => b.grams - a.grams)
}
