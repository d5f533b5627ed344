import type { BesideLine, BuildFigures, Preparation, TrialBuild } from './trial'
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
 * Source   EFSA (2015) caffeine; WHO and FDA sugar; US Food Code for cold and time; burns from published scald times
 * Checked  test/unit/drink/caution.test.ts
 * Limits   What is not known is not cleared: an unknown caffeine or allergen is itself a caution.
 */
export function cautionsOf(
  build: TrialBuild,
  figures: Pick<BuildFigures, 'caffeine' | 'freeSugars' | 'allergens'>,
  worked: Worked = new Map(),
): readonly string[] {
  const preparations = [...preparationsWithin(linesInGlass(build))].reverse()
  const all = everyLineInGlass(build)
  if (all.length === 0) return []
  const { caffeine, freeSugars, allergens } = figures
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
  if (freeSugars.known && freeSugars.value > SUGAR_GUIDES.whoLower) {
    const guide = freeSugars.value > SUGAR_GUIDES.who ? SUGAR_GUIDES.who : SUGAR_GUIDES.whoLower
    said.push(`More than ${guide} g of free sugars in one glass; people with diabetes should be told.`)
  }
  if (preparations.some(({ kind }) => kind === 'syrup')) {
    said.push('Hot syrup sticks and burns: deep pot, no children near, cool water for 20 minutes on a burn.')
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

function crystalsOf(preparation: Preparation, worked: Worked) {
  const celsius = preparation.storageTemperature
  const brix = brixOf(preparation, worked)
  const sound = celsius !== null && celsius >= 0 && celsius <= 100 && brix.missing.length === 0
  return sound ? crystalsAt(brix.total, celsius) : null
}
