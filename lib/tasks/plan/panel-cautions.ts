import 'server-only'
import { demand } from '@/lib/base/demand'
import { allergensOf, type AllergenMark } from '@/lib/drink/allergen'
import type { AllergenListId } from '@/lib/drink/allergen'
import { mostCaffeineOf, sugarsOf } from '@/lib/drink/contents'
import type { TrialBuild } from '@/lib/drink/trial'
import { everyLineInGlass, partsInGlass } from '@/lib/drink/in-glass'

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
export function panelCautions(glasses: readonly TrialBuild[], allergenList: string): Cautions {
  const list = LISTS[allergenList]
  demand(list !== undefined, `no allergen list is called ${allergenList}`)
  const union = allergensOf(
    glasses.flatMap((glass) => partsInGlass(glass)),
    list,
  )
  const named = (state: AllergenMark) => union.rows.filter((row) => row.state === state).map((row) => row.name)
  const ingredients = glasses.flatMap(everyLineInGlass).filter((line) => line.preparation === null)

  return {
    list: union.list,
    contains: named('contains'),
    mayContain: named('may-contain'),
    notStated: named('not-stated'),
    caffeine: ingredients.some((one) => mostCaffeineOf(one) !== 0),
    milk: ingredients.some((i) => i.kind === 'milk'),
    sugar: ingredients.some((one) => sugarsOf(one) !== 0),
  }
}
