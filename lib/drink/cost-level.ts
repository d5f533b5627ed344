import type { BesideLine, BuildLine, TrialBuild } from './trial'
import { computeBuild } from './build'
import type { CostFigures } from './trial'
import type { Figure } from './figure'
import { withTrueShares } from './shares'
import { findUnit } from './unit'

/** A level as the café names it ("economy"), with the ingredient it uses on some lines; the others stay. */
export type CostLevel = {
  readonly name: string
  readonly alternatives: ReadonlyMap<string, BuildLine>
  /** True for the one level people really tasted. */
  readonly tasted: boolean
}

/** One level costed, line by line. */
export type CostedLevel = {
  readonly name: string
  readonly tasted: boolean
  readonly lines: readonly { readonly key: string; readonly name: string; readonly cost: Figure }[]
  readonly cost: CostFigures
  /** What to say where nobody tasted it. */
  readonly warning: string | null
}

/**
 * What does one recipe cost at each level, side by side?
 *
 *     the same grams on every line, another ingredient where the level names one
 *
 * @param levels  alternatives by line key; unknown keys are ignored
 *
 * Source   common practice of costing, no source
 * Checked  test/unit/drink/cost-level.test.ts
 * Limits   A cheaper ingredient is another drink: a level nobody tasted is only a price.
 */
export function costLevels(build: TrialBuild, levels: readonly CostLevel[]): readonly CostedLevel[] {
  return levels.map(({ name, alternatives, tasted }) => {
    const { lines, cost } = computeBuild(atLevel(build, alternatives))
    const warning = tasted ? null : `${name} was not tasted: its cost is known, its liking is not.`
    return {
      name,
      tasted,
      lines: lines.map(({ key, name: line, cost: each }) => ({ key, name: line, cost: each })),
      cost,
      warning,
    }
  })
}

/** Which trial is this level? Grams, tolerance and place stay; the ingredient changes. */
export function atLevel(build: TrialBuild, alternatives: ReadonlyMap<string, BuildLine>): TrialBuild {
  const lines = build.lines.map((line) => {
    const other = alternatives.get(line.key)
    return other ? swapped(line, other) : line
  })
  return { ...build, lines }
}

/** The grams are held. A volume was typed for the ingredient that is no longer there, with its density: it goes. */
function swapped(line: BuildLine, other: BuildLine): BuildLine {
  const { key, name, targetGrams, weighedGrams, toleranceGrams, temperature } = line
  const typed = line.typed && findUnit(line.typed.unit)?.of === 'mass' ? { ...line.typed, density: null } : null
  return { ...other, key, targetGrams, weighedGrams, toleranceGrams, temperature, typed, insteadOf: name }
}

/** What one level uses on one line in place of what the sheet names. */
export type Alternative = {
  readonly key: string
  readonly level: { readonly id: string; readonly name: string }
  readonly line: BuildLine
}

/**
 * What was in the glass, if the trial was made at this level?
 *
 * @param build         as the sheet names its lines
 * @param level         the level it was made at, or null when nobody said
 * @param alternatives  of every level, in any order
 * @returns             with a level its ingredients on the lines; without, the sheet's own, and beside them all that some
 *                      level would have used
 *
 * Source   our own rule: an ingredient that may have been in the glass counts for allergens
 * Checked  test/unit/drink/cost-level.test.ts
 */
export function madeAt(
  build: TrialBuild,
  level: Alternative['level'] | null,
  alternatives: readonly Alternative[],
): TrialBuild {
  if (level) {
    const own = alternatives.filter((one) => one.level.id === level.id)
    return { ...withTrueShares(atLevel(build, new Map(own.map(({ key, line }) => [key, line])))), level: level.name }
  }
  const beside: BesideLine[] = []
  for (const line of build.lines) {
    for (const { level: other, line: part } of alternatives.filter(({ key }) => key === line.key)) {
      const same = beside.findIndex((one) => one.line.key === line.key && one.line.name === part.name)
      const before = beside[same]
      if (before) beside[same] = { ...before, level: `${before.level}, ${other.name}` }
      else beside.push({ line: swapped(line, part), insteadOf: line.name, level: other.name, why: 'not-said' })
    }
  }
  return { ...build, beside }
}
