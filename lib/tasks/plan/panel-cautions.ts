import 'server-only'
import { demand } from '@/lib/base/demand'
import { allergensOf, type AllergenListId, type AllergenMark } from '@/lib/drink/allergen'
import { computeBuild } from '@/lib/drink/build'
import { cautionsTogether, type Caution, type GlassFacts } from '@/lib/drink/caution'
import type { TrialBuild } from '@/lib/drink/trial'
import { liquidMlOf, partsInGlass } from '@/lib/drink/in-glass'

/** What a taster is told before a seat: over all cups together, never by cup, and never by ingredient. */
export type Cautions = {
  readonly list: string
  readonly contains: readonly string[]
  readonly mayContain: readonly string[]
  readonly notStated: readonly string[]
  /** in the words of the sheets, the gravest first */
  readonly said: readonly Caution[]
}

const LISTS: Readonly<Record<string, AllergenListId>> = {
  eu: 'eu',
  us: 'us',
  ph: 'philippines',
  philippines: 'philippines',
  codex: 'codex',
}

/** Whoever names no caffeine or sugar has not said there is none: only a stated zero keeps a caution away. */
export function panelCautions(
  glasses: readonly TrialBuild[],
  allergenList: string,
  tray: { readonly cups: number; readonly portionMl: number | null },
): Cautions {
  const list = LISTS[allergenList]
  demand(list !== undefined, `no allergen list is called ${allergenList}`)
  const union = allergensOf(
    glasses.flatMap((glass) => partsInGlass(glass)),
    list,
  )
  const named = (state: AllergenMark) => union.rows.filter((row) => row.state === state).map((row) => row.name)
  return {
    list: union.list,
    contains: named('contains'),
    mayContain: named('may-contain'),
    notStated: named('not-stated'),
    said: cautionsTogether(glasses.map(factsOf), union, tray),
  }
}

function factsOf(build: TrialBuild): GlassFacts {
  const figures = computeBuild(build)
  return { build, figures, liquidMl: liquidMlOf(build, figures) }
}
