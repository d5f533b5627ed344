import type { BuildFigures } from './build'
import type { Measure } from './contents'
import { together } from './contents'
import type { Figure, Tally } from './figure'
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
 *
 * Source   composition kept with each ingredient; WHO 2015 and US FDA for the shares
 * Checked  test/unit/drink/build.test.ts, test/reference/sugar-guides.test.ts
 * Limits   Free sugars leave out the lactose of milk. Not a nutrition label.
 */
export function intakeFigures(poured: readonly Poured[]): Intake {
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
    caffeine: caffeineFigure(total('caffeineLow'), total('caffeineHigh'), () => working('caffeineHigh')),
  }
}

function caffeineFigure(low: Tally, high: Tally, working: () => string): BuildFigures['caffeine'] {
  const middle = times(sum([low, high]), 0.5)
  const shown = figure(
    middle,
    'mg',
    () => `between ${written(low.total, 0)} and ${written(high.total, 0)}; high end: ${working()}`,
    [SOURCE.caffeineModel, SOURCE.efsa],
  )
  return shown.known ? { ...shown, low: low.total, high: high.total } : shown
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
