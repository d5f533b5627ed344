import 'server-only'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import { mlToPour, portionsPerCup } from '@/lib/panel/portions'
import { binomialLower, binomialUpper } from '@/lib/stats/distribution/binomial'
import { tastersForPreference } from '@/lib/stats/plan/choice-power'
import { ALPHA, POWER } from './read-plan-figures'

/** What a plan of two cups comes to, as far as it is typed. */
export interface ChoiceFigures {
  /** tasters who prefer one that find the planned share, four times out of five */
  readonly tasters: number | null
  /** with the seats now typed, everybody preferring one: how likely it is found, the wrong one named, and how many it takes */
  readonly withSeats: {
    readonly seats: number
    readonly found: number
    readonly wrong: number
    /** null where no count is enough */
    readonly critical: number | null
  } | null
  readonly share: number | null
  readonly perTasterMl: number | null
  readonly perCupMl: number | null
}

/** Works out a plan of two cups while it is typed, by the exact test that reads it: nothing is drawn by chance. */
export function readChoiceFigures({ seats, share, ml }: TypedFigures): ChoiceFigures {
  const each = { cups: 2, cupsPerTaster: null }
  return {
    tasters: share === null ? null : tastersForPreference({ share: share / 100, alpha: ALPHA }, { power: POWER }).n,
    withSeats: share === null || seats === null ? null : chancesOf(seats, share / 100),
    share,
    perTasterMl: ml === null ? null : 2 * ml,
    perCupMl: ml === null || seats === null ? null : mlToPour(portionsPerCup({ seats, ...each }), ml),
  }
}

function chancesOf(seats: number, share: number): ChoiceFigures['withSeats'] {
  const critical = tastersForPreference({ share, alpha: ALPHA }, { n: seats }).critical ?? null
  if (critical === null) return { seats, critical, found: 0, wrong: 0 }
  return {
    ...{ seats, critical },
    found: binomialUpper(critical - 1, seats, share),
    wrong: binomialLower(seats - critical, seats, share),
  }
}
