import { LOCAL_RULES } from './caution'
import type { BuildFigures, BuildLine, TrialBuild } from './trial'
import { scaleSheet, type BrewStep } from './scale'

/** One part of a glass as it goes in. Grams. */
export type BesideAmount = {
  readonly key: string
  readonly grams: number
  /** °C when poured; null: the sheet does not say */
  readonly temperature: number | null
}

/** One part, and what of it goes into each trial; an empty list where a trial holds none. */
export type BesidePart = {
  readonly name: string
  readonly isIce: boolean
  readonly amounts: readonly (readonly BesideAmount[])[]
}

/** One brew of a trial: what is brewed, how, and the grams of it that are poured. */
export type BesideBrew = BrewStep & { readonly key: string; readonly name: string; readonly gives: number | null }

/** What a line is made of, whatever batch of it was poured. */
export const partName = ({ preparation, name }: BuildLine): string => preparation?.name ?? name

/**
 * What goes into each of several glasses, part by part?
 *
 *     lines stand together by what they are made of; two lines of one part in one glass stay two amounts; grounds are brews
 *
 * @returns  parts in the order in which they first come, all ice last
 *
 * Source   our own rule
 * Checked  test/unit/drink/beside.test.ts
 */
export function partsBeside(builds: readonly TrialBuild[]): readonly BesidePart[] {
  const rows = new Map<string, { isIce: boolean; amounts: BesideAmount[][] }>()
  for (const [place, build] of builds.entries()) {
    const brewed = new Set(brewsOf(build).map(({ key }) => key))
    for (const line of build.lines) {
      if (brewed.has(line.key)) continue
      const name = partName(line)
      const row = rows.get(name) ?? { isIce: line.form === 'ice', amounts: builds.map(() => []) }
      rows.set(name, row)
      row.amounts[place]?.push({ key: line.key, grams: line.targetGrams, temperature: line.temperature })
    }
  }
  const parts = [...rows].map(([name, row]) => ({ name, ...row }))
  return [...parts.filter(({ isIce }) => !isIce), ...parts.filter(({ isIce }) => isIce)]
}

/** What is brewed straight into the glass, with its dose, water, grind and time. */
export function brewsOf(build: TrialBuild): readonly BesideBrew[] {
  return scaleSheet(build, 1).steps.flatMap(({ key, name, add, brew }) =>
    brew ? [{ ...brew, key, name, gives: add }] : [],
  )
}

/** Each caution once, with which of the glasses it is said of, counted from 0: the gravest first as each glass has them, local rules last. */
export function cautionsBeside(
  figures: readonly Pick<BuildFigures, 'cautions'>[],
): readonly { readonly words: string; readonly of: readonly number[] }[] {
  const all = [...new Set(figures.flatMap(({ cautions }) => cautions))]
  const rank = (words: string) =>
    words === LOCAL_RULES
      ? Infinity
      : Math.max(...figures.flatMap(({ cautions }) => (cautions.includes(words) ? [cautions.indexOf(words)] : [])))
  return all
    .toSorted((a, b) => (rank(a) === rank(b) ? 0 : rank(a) - rank(b)))
    .map((words) => ({
      words,
      of: figures.flatMap(({ cautions }, place) => (cautions.includes(words) ? [place] : [])),
    }))
}
