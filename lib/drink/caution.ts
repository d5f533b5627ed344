import type { BesideLine, BuildFigures, BuildLine, Preparation, TrialBuild } from './trial'
import { sayAllergens, type AllergenUnion } from './allergen'
import { CAFFEINE_GUIDES } from './caffeine'
import { mostCaffeineOf, sugarsOf } from './contents'
import { written } from './figure'
import { everyLineInGlass, linesInGlass } from './in-glass'
import { preparationsWithin } from './nesting'
import { brixOf } from './preparation'
import type { Worked } from './preparation'
import { crystalsAt } from './solubility'
import { SUGAR_GUIDES } from './sugar'

/** The sentence every caution ends in, once. */
export const LOCAL_RULES =
  'Follow your local food-safety rules; this does not replace a licensed food-safety professional.'

/**
 * What to say of something that stands on no line of the sheet and counts for allergens all the same. Of other batches nothing:
 * a sheet that names a preparation says so itself.
 */
function sayBeside({ line, insteadOf, level, why }: BesideLine): string | null {
  if (why === 'other-batch') return null
  const at = level === null ? '' : ` at the cost level “${level}”`
  return why === 'used'
    ? `${line.name} was used in place of ${insteadOf}${at}: this sheet keeps the figures of ${insteadOf}, and for allergens both count.`
    : `${line.name} may have been used in place of ${insteadOf}${at}: which level it was made at is not said, so for allergens both count.`
}

/** What a caution is about. */
export type CautionKind = 'allergens' | 'caffeine' | 'sugar' | 'alcohol' | 'hot' | 'crystals' | 'milk' | 'ice' | 'rules'

/** One caution: what it is about, and its sentence, which is the same wherever it is shown. */
export type Caution = { readonly kind: CautionKind; readonly words: string }

/** What the cautions are decided on, of one glass or of several. Milligrams and grams. */
type Facts = {
  readonly allergens: readonly string[]
  readonly caffeine: { readonly some: boolean; readonly known: boolean; readonly most: number }
  readonly sugar: { readonly some: boolean; readonly known: boolean; readonly most: number }
  readonly alcohol: { readonly from: readonly string[]; readonly unstated: readonly string[] }
  readonly hot: boolean
  readonly crystals: readonly string[]
  readonly milk: boolean
  readonly ice: boolean
}

type Decided = Pick<BuildFigures, 'caffeine' | 'freeSugars' | 'sugarSources' | 'allergens'>

/**
 * What must be said beside this drink?
 *
 * @returns  sentences, the gravest first; the last sends the reader to the local rules. Empty only when nothing is in it.
 *
 * Source   EFSA (2015) caffeine; WHO and FDA sugar; US Food Code for cold and time; published times to a burn in water:
 *          54 °C 30 s, 60 °C 3 to 5 s
 * Checked  test/unit/drink/caution.test.ts
 * Limits   What is not known is not cleared: an unknown caffeine, sugar or allergen is itself a caution. The strength of the drink in
 *          alcohol is not worked out.
 */
export function cautionsOf(build: TrialBuild, figures: Decided, worked: Worked = new Map()): readonly string[] {
  if (everyLineInGlass(build).length === 0) return []
  return sayCautions(factsOf(build, figures, worked)).map(({ words }) => words)
}

/** What several glasses of a tasting are decided on: each worked out, and the ml of liquid in it where that is known. */
export type GlassFacts = {
  readonly build: TrialBuild
  readonly figures: BuildFigures
  readonly liquidMl: number | null
}

/**
 * What must be said beside several drinks of which one tastes a portion each?
 *
 * Whatever is said of one of them is said of all, in the same words, and nothing is named that is in one alone. Caffeine and
 * free sugars are those of the fullest glass, or of as many portions of the strongest as stand on the tray: whichever is more.
 *
 * @param glasses   one for each drink; of the same drink as it was and as it is, one for each
 * @param union     allergens over all of them
 * @param tray      cups on one tray, 0 or more; ml of a portion, above 0, null: nobody has said, a whole glass counts
 *
 * Source   our own rule: the upper end, and never less by not knowing
 * Checked  test/unit/drink/caution.test.ts
 */
export function cautionsTogether(
  glasses: readonly GlassFacts[],
  union: AllergenUnion,
  tray: { readonly cups: number; readonly portionMl: number | null },
): readonly Caution[] {
  const each = glasses.map(({ build, figures, liquidMl }) => ({
    ...factsOf(build, figures, new Map()),
    portion: liquidMl === null || liquidMl <= 0 || tray.portionMl === null ? 1 : tray.portionMl / liquidMl,
  }))
  const together = (what: 'caffeine' | 'sugar') => ({
    some: each.some((one) => one[what].some),
    known: each.every((one) => one[what].known),
    most: Math.max(0, ...each.map((one) => one[what].most * Math.max(1, one.portion * tray.cups))),
  })
  return sayCautions({
    allergens: sayAllergens({ ...union, unread: union.unread.length > 0 ? ['something in the cups'] : [] }),
    caffeine: together('caffeine'),
    sugar: together('sugar'),
    alcohol: {
      from: each.some((one) => one.alcohol.from.length > 0) ? ['something in the cups'] : [],
      unstated: each.some((one) => one.alcohol.unstated.length > 0) ? ['something in the cups'] : [],
    },
    hot: each.some((one) => one.hot),
    crystals: [],
    milk: each.some((one) => one.milk),
    ice: each.some((one) => one.ice),
  })
}

function factsOf(build: TrialBuild, figures: Decided, worked: Worked): Facts {
  const all = everyLineInGlass(build)
  const bought = all.filter(({ preparation }) => preparation === null)
  // figures leave out what stands beside the sheet, and what they leave out is not cleared
  const beside = everyLineInGlass({ lines: [], beside: build.beside }).filter(({ preparation }) => preparation === null)
  const { caffeine, freeSugars, sugarSources, allergens } = figures
  // the known part of the free sugars warns though the rest is not known
  const stated = sugarSources.reduce((sum, { free }) => sum + (free ?? 0), 0)
  const someCaffeine = bought.some((line) => mostCaffeineOf(line) !== 0)
  const someSugar = bought.some((line) => sugarsOf(line) !== 0)
  return {
    allergens: [...sayAllergens(allergens), ...build.beside.flatMap((one) => sayBeside(one) ?? [])],
    caffeine: {
      some: someCaffeine,
      known: !someCaffeine || (caffeine.known && beside.every((line) => mostCaffeineOf(line) !== null)),
      most: caffeine.known ? caffeine.high : (caffeine.atLeast?.high ?? 0),
    },
    sugar: {
      some: someSugar,
      known: !someSugar || (freeSugars.known && beside.every((line) => sugarsOf(line) !== null)),
      most: freeSugars.known ? freeSugars.value : stated,
    },
    alcohol: alcoholOf(bought),
    // what went hot into a batch has cooled since: only what is poured into the glass
    hot: linesInGlass(build).some((line) => burns(line, build)),
    crystals: [...preparationsWithin(linesInGlass(build))]
      .reverse()
      .filter((preparation) => crystalsOf(preparation, worked) === 'will-crystallise')
      .map(({ name, storageTemperature }) => `${name} will crystallise at ${storageTemperature} °C.`),
    milk: all.some((line) => line.kind === 'milk'),
    ice: all.some((line) => line.form === 'ice'),
  }
}

/** The one place where a caution becomes words: sheet, card, sizes, scale, a panel's door and its paper show these. */
function sayCautions(facts: Facts): readonly Caution[] {
  const said = (kind: CautionKind, words: readonly string[]) => words.map((one): Caution => ({ kind, words: one }))
  const where = (holds: boolean, words: string) => (holds ? [words] : [])
  return [
    ...said('allergens', facts.allergens),
    ...said('caffeine', sayCaffeine(facts.caffeine)),
    ...said('sugar', saySugar(facts.sugar)),
    ...said('alcohol', sayAlcohol(facts.alcohol)),
    ...said(
      'hot',
      where(facts.hot, `Poured hot it burns: at ${BURNS_FROM} °C within half a minute, at 60 °C within seconds.`),
    ),
    ...said('crystals', facts.crystals),
    ...said(
      'milk',
      where(facts.milk, 'Milk and opened plant drinks: at 5 °C or below, date marked, never standing warm.'),
    ),
    ...said('ice', where(facts.ice, 'Ice is a food: drinking water, a scoop, no hands.')),
    ...said('rules', [LOCAL_RULES]),
  ]
}

function sayCaffeine({ some, known, most }: Facts['caffeine']): string[] {
  const { singleDose } = CAFFEINE_GUIDES
  return [
    ...(known ? [] : ['Caffeine is not known: do not serve it as free of caffeine or decaffeinated.']),
    ...(some
      ? ['Holds or may hold caffeine: whoever is pregnant, breastfeeding or told to avoid it should know.']
      : []),
    ...(most > singleDose
      ? [
          `May hold over ${singleDose} mg caffeine, the most advised at once for an adult and in a day while pregnant; not for children.`,
        ]
      : []),
  ]
}

function saySugar({ some, known, most }: Facts['sugar']): string[] {
  const guide = [SUGAR_GUIDES.who, SUGAR_GUIDES.whoLower].find((grams) => most > grams)
  const more = guide === undefined ? [] : [`More than ${guide} g of free sugars at once`]
  const unknown = known ? [] : ['Free sugars are not known: do not call it unsweetened or without added sugar']
  const words = [...more, ...unknown]
  if (words.length === 0 && some) words.push('Holds or may hold sugars')
  return words.map((one) => `${one}; people with diabetes should be told.`)
}

/** Whatever states some, and of what may hold some, the other liquids, what states nothing. */
function alcoholOf(bought: readonly BuildLine[]): Facts['alcohol'] {
  const named = (lines: readonly BuildLine[], say: (line: BuildLine) => string) => [...new Set(lines.map(say))]
  const strong = bought.filter(({ alcoholPercent }) => (alcoholPercent ?? 0) > 0)
  const silent = bought.filter(
    ({ kind, form, alcoholPercent }) => kind === 'other' && form === 'liquid' && alcoholPercent === undefined,
  )
  return {
    from: named(strong, ({ name, alcoholPercent }) => `${name} (${written(alcoholPercent ?? 0)} % by volume)`),
    unstated: named(silent, ({ name }) => name),
  }
}

/**
 * A drink is labelled with its strength above 1.2 % by volume: Regulation (EU) 1169/2011, Articles 9(1)(k), 16(4) and 28(2).
 * Who keeps away from alcohol keeps away from less, so any is said; how strong the drink is is not worked out.
 */
function sayAlcohol({ from, unstated }: Facts['alcohol']): string[] {
  return [
    ...(from.length === 0
      ? []
      : [
          `Brings alcohol: ${from.join(', ')}. Not for children; whoever is pregnant, drives or keeps away from alcohol should be told.`,
        ]),
    ...(unstated.length === 0
      ? []
      : [
          `Alcohol is not stated: ${unstated.join(', ')}. Extracts, bitters and spirits bring some: do not call it free of alcohol.`,
        ]),
  ]
}

/** °C */
const BURNS_FROM = 54

/** A freshly brewed coffee whose temperature nobody wrote down is not cleared. */
function burns(line: BuildLine, { brew, coffeeTemperature }: TrialBuild): boolean {
  if (line.form === 'ice' && line.preparation === null) return false
  const brewedHere = line.form === 'grounds' && line.preparation === null && brew !== null
  const celsius = line.temperature ?? (line.kind === 'coffee' ? coffeeTemperature : null)
  return celsius === null ? brewedHere : celsius >= BURNS_FROM
}

/** What must be said where a batch is made, beside its inputs and steps: nothing unless something is cooked. */
export function makingCautions(build: TrialBuild): readonly string[] {
  const cooked = preparationsWithin(linesInGlass(build)).some(({ kind }) => kind === 'syrup')
  return cooked ? ['Hot syrup sticks and burns: deep pot, no children near, cool water for 20 minutes on a burn.'] : []
}

function crystalsOf(preparation: Preparation, worked: Worked) {
  const celsius = preparation.storageTemperature
  const brix = brixOf(preparation, worked)
  const sound = celsius !== null && celsius >= 0 && celsius <= 100 && brix.missing.length === 0
  return sound ? crystalsAt(brix.total, celsius) : null
}
