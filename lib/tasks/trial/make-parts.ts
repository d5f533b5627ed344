import 'server-only'
import { brewed } from '@/lib/drink/brewing'
import { pressesIn } from '@/lib/drink/dose'
import { sum, tally } from '@/lib/drink/figure'
import { decimalsOf, type Scales } from '@/lib/drink/house-scales'
import { isBrewed } from '@/lib/drink/instant'
import { scaleOf, tooCoarseFor, toleranceOf, type TooCoarse } from '@/lib/drink/line'
import { makeMany, partsFor, type Lacking, type Parts, type Shelf } from '@/lib/drink/make-many'
import type { BrewStep as ScaleBrewStep } from '@/lib/drink/scale'
import { toMl } from '@/lib/drink/to-ml'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import type { MakeAsked } from '@/lib/forms/make-form'

/** How the grounds of one line are brewed. Grams. */
interface BrewStep extends Pick<ScaleBrewStep, 'grind' | 'waterTemperature' | 'seconds'> {
  readonly water: number
  readonly beverage: number
}

/** A line to weigh, how its grounds are brewed, and how many presses of a pump it is where the sheet counts it so. */
export type LineToMake = Parts['lines'][number] & {
  readonly brew: BrewStep | null
  readonly presses: number | null
  /** ± g, of the scale that it is weighed on; null where the sheet has no such line */
  readonly tolerance: { readonly grams: number; readonly decimals: number } | null
  /** so little that its scale cannot weigh it */
  readonly tooCoarse: TooCoarse | null
}

/** Everything to weigh, in working order. */
export interface PartsToMake {
  readonly known: true
  /** g of ice that melts into the volume; null where glasses were asked for */
  readonly meltGrams: number | null
  readonly lines: readonly LineToMake[]
  readonly preparations: Parts['preparations']
  readonly shopping: Parts['shopping']
  /** g to brew with, which is no line of the sheet */
  readonly brewWater: number
}

/** What a drink takes for many glasses or a volume, less what is there; or what must be known first. */
export function partsToMake(
  build: TrialBuild,
  asked: MakeAsked,
  { onShelf, scales }: { readonly onShelf?: Shelf | undefined; readonly scales: Scales },
): PartsToMake | Lacking {
  const parts = partsAsked(build, asked, onShelf)
  return parts.known ? withWays(build, parts, scales) : parts
}

type PartsAsked = Parts & { readonly meltGrams: number | null }

function partsAsked(build: TrialBuild, asked: MakeAsked, onShelf?: Shelf): PartsAsked | Lacking {
  const { count, amount, spare } = asked
  if (count === 'glasses') return withMelt(makeMany(build, amount, spare, onShelf), null)
  const scaled = toMl(build, amount * (1 + spare), count)
  return scaled.known ? withMelt(partsFor(build, scaled.factor, onShelf), scaled.meltGrams) : scaled
}

const withMelt = (parts: Parts | Lacking, meltGrams: number | null) => (parts.known ? { ...parts, meltGrams } : parts)

/** How each is weighed, and what the grounds are brewed with, which no line of the sheet names. */
function withWays({ lines, brew }: TrialBuild, parts: PartsAsked, scales: Scales): PartsToMake {
  const { meltGrams, preparations, shopping } = parts
  const made = parts.lines.map((part) => {
    const line = lines.find(({ key }) => key === part.key)
    const brewedHere = line && brew !== null && isBrewed(line, brew) ? line : null
    const step = brewedHere && brew && brewStep(brew, brewedHere.grind, part.grams)
    const presses = line ? pressesIn(line, part.grams) : null
    return { ...part, brew: step, presses, ...weighedOn(line, part.grams, scales) }
  })
  const brewWater = made.reduce((all, { brew: step }) => all + (step?.water ?? 0), 0)
  return { known: true, meltGrams, lines: made, preparations, shopping, brewWater }
}

function weighedOn(line: BuildLine | undefined, grams: number, scales: Scales) {
  if (!line || !(line.targetGrams > 0)) return { tolerance: null, tooCoarse: null }
  const glasses = grams / line.targetGrams
  const { division } = scaleOf(line, scales)
  return {
    tolerance: { grams: toleranceOf(line, glasses, scales), decimals: decimalsOf(division) },
    tooCoarse: tooCoarseFor(line, glasses, scales),
  }
}

function brewStep(brew: NonNullable<TrialBuild['brew']>, grind: string | null, grams: number): BrewStep | null {
  const { water, beverage } = brewed(brew, tally(grams, ''), null)
  if (sum([water, beverage]).missing.length > 0) return null
  const { waterTemperature, seconds } = brew
  return { water: water.total, beverage: beverage.total, grind, waterTemperature, seconds }
}
