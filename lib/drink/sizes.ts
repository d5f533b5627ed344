import { demand } from '@/lib/base/demand'
import type { Tally } from './figure'
import { sum, tally } from './figure'
import { gramsOfLine } from './contents'
import type { Lacking } from './make-many'
import { contentsOfLine } from './preparation'
import type { BuildLine, TrialBuild, Vessel } from './trial'
import { PERCENT, requireUnit } from './unit'
import { ICE_DENSITY } from './vessel'

/** Share of the drink as built, ice held under, that is ice and that is coffee, by volume; null: as on the sheet. */
export type Shares = { readonly ice: number | null; readonly coffee: number | null }

/** The same drink in another vessel: scaled, and tasted by nobody. */
export type Sized = {
  readonly known: true
  readonly build: TrialBuild
  /** ml it is built to */
  readonly ml: number
  /** of `ml`, as they stand in it */
  readonly shares: { readonly ice: number; readonly coffee: number }
}

/** Usual takeaway sizes, brim by name. US fl oz. */
export const USUAL_SIZES = [12, 16, 22] as const

/** A usual size as a vessel. @param ounces  US fl oz, above 0 */
export function usualVessel(ounces: number): Vessel {
  demand(ounces > 0, `a vessel holds more than 0, got ${ounces}`)
  return { name: `${ounces} US fl oz`, brimMl: ounces * requireUnit('us-fl-oz').size, fillMl: null }
}

/** Below the brim where nobody can say how full the sheet’s glass is: room to carry it. Common practice, no source. */
const USUAL_FILL = 0.9

/**
 * What is this drink in another vessel?
 *
 *     V = its fill line,  else brim · (V₀ as built / brim₀ of the sheet’s glass, at most 1),  else 0.9 brim
 *     ice = s_ice · V · 0.9167;  coffee lines · s_coffee V / coffee₀;  all else · (1 − s_ice − s_coffee) V / else₀
 *
 * With the shares of the sheet’s glass every line grows alike, by V / V₀.
 *
 * @param vessel  brim above 0
 * @param shares  each within 0 to 1, together at most 1
 * @returns       targets only, no weights; or what is missing, where a volume is not known or a share has nothing to hold it
 * @throws RangeError  a vessel that holds nothing, shares outside their range
 *
 * Source   displacement, ideal mixing
 * Checked  test/unit/drink/sizes.test.ts
 * Limits   Scaled, not tasted: ice melts otherwise in another glass, and sips are other than volumes.
 */
export function sizeOf(build: TrialBuild, vessel: Vessel, shares: Shares): Sized | Lacking {
  demand(vessel.brimMl > 0, `a vessel holds more than 0 ml, got ${vessel.brimMl}`)
  const planned = build.lines.map((line): BuildLine => ({ ...line, weighedGrams: null }))
  const volumes = planned.map((line) => ({ line, ml: volumeOf(line, build) }))
  const of = (part: Part) => sum(volumes.filter(({ line }) => partOf(line) === part).map(({ ml }) => ml))
  const [ice, coffee, rest] = [of('ice'), of('coffee'), of('rest')]
  const whole = sum([ice, coffee, rest])
  if (whole.missing.length > 0) return { known: false, missing: whole.missing }
  const wanted = {
    ice: shares.ice ?? ice.total / whole.total,
    coffee: shares.coffee ?? coffee.total / whole.total,
  }
  const left = 1 - wanted.ice - wanted.coffee
  for (const share of Object.values(wanted)) demand(share >= 0 && share <= 1, `a share lies in 0–1, got ${share}`)
  if (left < -1e-9) return { known: false, missing: ['shares that are at most all of the glass'] }
  const ml = fillOf(build, whole.total, vessel)
  const factors: Readonly<Record<Part, Tally>> = {
    ice: factorOf(wanted.ice * ml, ice, 'ice on the sheet'),
    coffee: factorOf(wanted.coffee * ml, coffee, 'coffee on the sheet'),
    rest: factorOf(Math.max(0, left) * ml, rest, 'something beside ice and coffee'),
  }
  const { missing } = sum(Object.values(factors))
  if (missing.length > 0) return { known: false, missing }
  const lines = planned.map((line) => scaled(line, factors[partOf(line)].total)).filter((line) => line.targetGrams > 0)
  return { known: true, build: { ...build, vessel, lines }, ml, shares: wanted }
}

type Part = 'ice' | 'coffee' | 'rest'

function partOf(line: BuildLine): Part {
  if (line.form === 'ice' && line.preparation === null) return 'ice'
  return line.kind === 'coffee' ? 'coffee' : 'rest'
}

function volumeOf(line: BuildLine, build: TrialBuild): Tally {
  if (partOf(line) !== 'ice') return contentsOfLine(line, build.brew).volume
  const grams = gramsOfLine(line)
  return { ...grams, total: grams.total / ICE_DENSITY }
}

function fillOf({ vessel: own }: TrialBuild, built: number, vessel: Vessel): number {
  if (vessel.fillMl !== null) return vessel.fillMl
  const full = own !== null && own.brimMl > 0 ? Math.min(1, built / own.brimMl) : USUAL_FILL
  return vessel.brimMl * full
}

/** Nothing of what is not there is no trouble; something of it cannot be had. */
function factorOf(wanted: number, there: Tally, what: string): Tally {
  if (there.total > 0) return tally(wanted / there.total, '')
  return wanted < 1e-9 ? tally(1, '') : tally(null, what)
}

function scaled(line: BuildLine, factor: number): BuildLine {
  const { targetGrams, toleranceGrams, typed } = line
  return {
    ...line,
    targetGrams: targetGrams * factor,
    // said for the dose of the sheet: of another one the usual tolerance holds
    toleranceGrams: Math.abs(factor - 1) < 1e-12 ? toleranceGrams : null,
    // a share of the sheet’s drink is none of this one, where ice and coffee are held otherwise
    typed: typed && typed.unit !== PERCENT ? { ...typed, amount: typed.amount * factor } : null,
  }
}
