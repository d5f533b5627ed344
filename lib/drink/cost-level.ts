import type { BuildLine, TrialBuild } from './build'
import { computeBuild } from './build'
import type { CostFigures } from './build'
import type { Figure } from './figure'

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
    if (!other) return line
    const { key, role, targetGrams, weighedGrams, toleranceGrams, typed, temperature } = line
    return { ...other, key, role, targetGrams, weighedGrams, toleranceGrams, typed, temperature }
  })
  return { ...build, lines }
}
