import 'server-only'
import { demand } from '@/lib/base/demand'
import { allergensOf, type AllergenMark } from '@/lib/drink/allergen'
import type { AllergenListId } from '@/lib/drink/build'
import type { PanelIngredient } from '@/lib/db/panel-ingredients'

/** What a taster is told before a seat: over all cups together, never by cup, and never by ingredient. */
export type Cautions = {
  readonly list: string
  readonly contains: readonly string[]
  readonly mayContain: readonly string[]
  readonly notStated: readonly string[]
  readonly caffeine: boolean
  readonly milk: boolean
  readonly sugar: boolean
}

const LISTS: Readonly<Record<string, AllergenListId>> = {
  eu: 'eu',
  us: 'us',
  ph: 'philippines',
  philippines: 'philippines',
  codex: 'codex',
}

/** Whoever names no caffeine or sugar has not said there is none: only a stated zero keeps a caution away. */
export function panelCautions(ingredients: readonly PanelIngredient[], allergenList: string): Cautions {
  const list = LISTS[allergenList]
  demand(list !== undefined, `no allergen list is called ${allergenList}`)
  const union = allergensOf(
    ingredients.map((i) => ({
      name: i.name,
      labelRead: i.labelReadAt !== null,
      marks: Object.fromEntries(i.allergens.map(({ allergen, state }) => [allergen, readMark(state)])),
    })),
    list,
  )
  const named = (state: AllergenMark) => union.rows.filter((row) => row.state === state).map((row) => row.name)

  return {
    list: union.list,
    contains: named('contains'),
    mayContain: named('may-contain'),
    notStated: named('not-stated'),
    caffeine: ingredients.some((i) => (i.caffeineHighMg100g ?? (i.kind === 'coffee' ? 1 : 0)) > 0),
    milk: ingredients.some((i) => i.kind === 'milk' || i.isMilkOrPlantDrink),
    sugar: ingredients.some((i) => (i.sugarsMg ?? (i.kind === 'sweetener' ? 1 : 0)) > 0),
  }
}

/** A mark nobody knows counts as one nobody stated. */
function readMark(state: string): AllergenMark {
  return state === 'contains' || state === 'may-contain' || state === 'not-named' ? state : 'not-stated'
}
