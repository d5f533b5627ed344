import type { AllergenPart } from './allergen'
import type { BuildFigures, BuildLine, TrialBuild } from './trial'
import { preparationsWithin } from './nesting'
import { contentsOfLine } from './preparation'
import type { Worked } from './preparation'

/** Everything that was or may have been in the glass: the lines, and what stands beside them. */
export function linesInGlass(build: Pick<TrialBuild, 'lines' | 'beside'>): readonly BuildLine[] {
  return [...build.lines, ...build.beside.map(({ line }) => line)]
}

/** All lines in the glass, and all that went into the preparations among them, each preparation once. */
export function everyLineInGlass(build: Pick<TrialBuild, 'lines' | 'beside'>): readonly BuildLine[] {
  const lines = linesInGlass(build)
  return [...lines, ...preparationsWithin(lines).flatMap(({ inputs }) => inputs)]
}

/**
 * Which labels speak for this drink?
 *
 * @returns  every ingredient in the glass, down through its preparations
 *
 * Source   our own rule: what may have been in the glass counts as if it was
 * Checked  test/unit/drink/in-glass.test.ts
 */
export function partsInGlass(build: TrialBuild, worked: Worked = new Map()): readonly AllergenPart[] {
  return linesInGlass(build).flatMap((line) => contentsOfLine(line, build.brew, worked).parts)
}

/**
 * How much of this glass is liquid before any ice has melted?
 *
 *     volume as built − volume of the ice
 *
 * @returns  ml; null where a volume is not known, or nothing but ice is in it
 *
 * Source   displacement, as the volume itself
 * Checked  test/unit/drink/in-glass.test.ts
 */
export function liquidMlOf({ lines }: TrialBuild, figures: Pick<BuildFigures, 'volume' | 'lines'>): number | null {
  if (!figures.volume.known) return null
  let ml = figures.volume.value
  for (const { key } of lines.filter((line) => line.form === 'ice' && line.preparation === null)) {
    const ice = figures.lines.find((one) => one.key === key)?.volume
    if (!ice?.known) return null
    ml -= ice.value
  }
  // what is left of ice less itself is rounding
  return ml > 1e-6 ? ml : null
}
