import { demand } from '@/lib/base/demand'
import { gramsOfLine } from './contents'
import { waterDensity } from './density'
import type { Figure, Tally } from './figure'
import { sum, tally } from './figure'
import { glassFigures } from './glass'
import type { Lacking } from './make-many'
import { contentsOfLine } from './preparation'
import type { TrialBuild } from './trial'

/** Millilitres of what? `built`: as it stands in the glass, ice held under. `strained`: once settled, poured off the ice. */
export type Basis = 'built' | 'strained'

/** One glass, many times over, to fill a volume. Grams; `meltGrams` is the ice that melted into the volume. */
export type Scaled = {
  readonly known: true
  readonly factor: number
  readonly basis: Basis
  readonly meltGrams: number
  readonly lines: readonly { readonly key: string; readonly grams: number }[]
}

/** A jug of 1 000 litres is a slip of the unit. */
export const MOST_ML = 1e6

/**
 * What must be weighed so that it fills so many millilitres?
 *
 *     built      factor = V / (Σ m/ρ + m_ice/0.9167)
 *     strained   factor = V / (Σ m/ρ + melt/ρ_water),   melt by heat balance of the jug's own masses and temperatures
 *
 * @param ml  V, above 0, at most 1 000 000
 * @returns   targets times the factor; or what is missing: strained off ice, every temperature is asked for
 * @throws RangeError  any other volume
 *
 * Source   displacement, heat balance, ideal mixing
 * Checked  test/reference/ice-heat-balance.test.ts, test/unit/drink/to-ml.test.ts
 * Limits   No heat from room or jug. What clings to the ice is not counted: make some to spare.
 */
export function toMl(build: TrialBuild, ml: number, basis: Basis): Scaled | Lacking {
  demand(ml > 0 && ml <= MOST_ML, `ml must lie above 0 and at most ${MOST_ML}, got ${ml}`)
  const planned = { ...build, lines: build.lines.map((line) => ({ ...line, weighedGrams: null })) }
  const { volume, melted } = basis === 'built' ? builtVolume(planned) : strainedVolume(planned)
  const grams = planned.lines.map((line) => ({ key: line.key, grams: gramsOfLine(line) }))
  const { missing } = sum([volume, melted, ...grams.map((line) => line.grams)])
  if (missing.length > 0) return { known: false, missing }
  const factor = ml / volume.total
  return {
    known: true,
    factor,
    basis,
    meltGrams: melted.total * factor,
    lines: grams.map((line) => ({ key: line.key, grams: line.grams.total * factor })),
  }
}

type Volume = { readonly volume: Tally; readonly melted: Tally }

const tallyOf = (made: Figure): Tally => (made.known ? tally(made.value, '') : { ...NONE, missing: made.missing })
const NONE = tally(0, '')

const pouredOf = (build: TrialBuild) =>
  build.lines.map((line) => ({ line, contents: contentsOfLine(line, build.brew) }))

const builtVolume = (build: TrialBuild): Volume => ({
  volume: tallyOf(glassFigures(build, pouredOf(build)).volume),
  melted: NONE,
})

function strainedVolume(build: TrialBuild): Volume {
  const poured = pouredOf(build)
  const liquids = poured.filter(({ line }) => line.form !== 'ice' || line.preparation)
  const liquid = sum(liquids.map(({ contents }) => contents.volume))
  if (liquids.length === poured.length) return { volume: liquid, melted: NONE }
  // A glass may be drawn with a usual temperature; a jug that is poured for a panel may not be short for a guess.
  const warmth = liquids.map(({ line }) =>
    tally(
      line.temperature ?? (line.kind === 'coffee' ? build.coffeeTemperature : null),
      `temperature of ${line.name} when poured`,
    ),
  )
  const { iceMelted, temperature } = glassFigures(build, poured)
  const melted = tallyOf(iceMelted)
  const missing = sum([liquid, melted, ...warmth]).missing
  if (missing.length > 0 || !temperature.known) return { volume: { ...NONE, missing }, melted }
  const water = (melted.total * 1000) / waterDensity(Math.min(100, Math.max(0, temperature.value)))
  const whole = liquid.total + water
  return { volume: tally(whole > 0 ? whole : null, 'something that can be strained off the ice'), melted }
}
