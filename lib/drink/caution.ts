import type { BesideLine, BuildFigures, BuildLine, Preparation, TrialBuild } from './trial'
import { CAFFEINE_GUIDES } from './caffeine'
import { everyLineInGlass, linesInGlass } from './in-glass'
import { preparationsWithin } from './nesting'
import { brixOf } from './preparation'
import type { Worked } from './preparation'
import { crystalsAt } from './solubility'
import { SUGAR_GUIDES } from './sugar'

/** The sentence every caution ends in, once. */
export const LOCAL_RULES =
  'Follow your local food-safety rules; this does not replace a licensed food-safety professional.'

/** What to say of something that stands on no line of the sheet and counts for allergens all the same. */
function sayBeside({ line, insteadOf, level, why }: BesideLine): string {
  const at = level === null ? '' : ` at the cost level “${level}”`
  return why === 'used'
    ? `${line.name} was used in place of ${insteadOf}${at}: this sheet keeps the figures of ${insteadOf}, and for allergens both count.`
    : `${line.name} may have been used in place of ${insteadOf}${at}: which level it was made at is not said, so for allergens both count.`
}

/**
 * What must be said beside this drink?
 *
 * @returns  sentences, the gravest first; the last sends the reader to the local rules. Empty only when nothing is in it.
 *
 * Source   EFSA (2015) caffeine; WHO and FDA sugar; US Food Code for cold and time; published times to a burn in water:
 *          54 °C 30 s, 60 °C 3 to 5 s
 * Checked  test/unit/drink/caution.test.ts
 * Limits   What is not known is not cleared: an unknown caffeine or allergen is itself a caution.
 */
export function cautionsOf(
  build: TrialBuild,
  figures: Pick<BuildFigures, 'caffeine' | 'freeSugars' | 'sugarSources' | 'allergens'>,
  worked: Worked = new Map(),
): readonly string[] {
  const preparations = [...preparationsWithin(linesInGlass(build))].reverse()
  const all = everyLineInGlass(build)
  if (all.length === 0) return []
  const { caffeine, allergens } = figures
  const said: string[] = []
  if (allergens.unread.length > 0) {
    said.push(`Labels not read: ${allergens.unread.join(', ')}. No allergen may be called absent until they are.`)
  }
  said.push(...build.beside.map(sayBeside))
  if (!caffeine.known) said.push('Caffeine is not known: do not serve it as free of caffeine or decaffeinated.')
  const most = caffeine.known ? caffeine.high : (caffeine.atLeast?.high ?? 0)
  if (most > CAFFEINE_GUIDES.singleDose) {
    said.push(
      `May hold over ${CAFFEINE_GUIDES.singleDose} mg caffeine, the most advised at once for an adult and in a day while pregnant; not for children.`,
    )
  }
  said.push(...sugarCautions(figures))
  // what went hot into a batch has cooled since: only what is poured into the glass
  if (linesInGlass(build).some((line) => burns(line, build))) {
    said.push(`Poured hot it burns: at ${BURNS_FROM} °C within half a minute, at 60 °C within seconds.`)
  }
  for (const preparation of preparations) {
    if (crystalsOf(preparation, worked) === 'will-crystallise') {
      said.push(`${preparation.name} will crystallise at ${preparation.storageTemperature} °C.`)
    }
  }
  if (all.some((line) => line.kind === 'milk')) {
    said.push('Milk and opened plant drinks: at 5 °C or below, date marked, never standing warm.')
  }
  if (all.some((line) => line.form === 'ice')) said.push('Ice is a food: drinking water, a scoop, no hands.')
  return [...said, LOCAL_RULES]
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

/** The known part of the free sugars warns though the rest is not known; and what is not known is not cleared. */
function sugarCautions({ freeSugars, sugarSources }: Pick<BuildFigures, 'freeSugars' | 'sugarSources'>): string[] {
  const stated = sugarSources.reduce((all, { free }) => all + (free ?? 0), 0)
  const least = freeSugars.known ? freeSugars.value : stated
  const guide = [SUGAR_GUIDES.who, SUGAR_GUIDES.whoLower].find((grams) => least > grams)
  const more = guide === undefined ? [] : [`More than ${guide} g of free sugars in one glass`]
  const unknown = freeSugars.known
    ? []
    : ['Free sugars are not known: do not call it unsweetened or without added sugar']
  return [...more, ...unknown].map((words) => `${words}; people with diabetes should be told.`)
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
