import type { BuildLine, TrialBuild } from './trial'

/** What must be measured before a jug is poured off its ice. */
export interface WarmthAsked {
  readonly name: string
  readonly isIce: boolean
}

const isIce = (line: BuildLine) => line.form === 'ice' && !line.preparation

function warmthOf(build: TrialBuild, line: BuildLine): number | null {
  if (line.temperature !== null) return line.temperature
  if (isIce(line)) return build.iceTemperature
  return line.kind === 'coffee' ? build.coffeeTemperature : null
}

/**
 * How warm is what, in these drinks, that nobody has said? Only where there is ice: without it nothing melts into a jug.
 *
 * @returns  each name once, in the order poured
 *
 * Source   heat balance: every temperature counts in it
 * Checked  test/unit/drink/jug-warmth.test.ts
 */
export function warmthAsked(builds: readonly TrialBuild[]): readonly WarmthAsked[] {
  const asked = new Map<string, WarmthAsked>()
  for (const build of builds.filter(({ lines }) => lines.some(isIce)))
    for (const line of build.lines)
      if (warmthOf(build, line) === null) asked.set(line.name, { name: line.name, isIce: isIce(line) })
  return [...asked.values()]
}

/** The drink with what was measured where nobody had said it; what a sheet says of its own is left as it is. */
export function withWarmth(build: TrialBuild, celsius: ReadonlyMap<string, number>): TrialBuild {
  const lines = build.lines.map((line) =>
    warmthOf(build, line) === null ? { ...line, temperature: celsius.get(line.name) ?? null } : line,
  )
  return { ...build, lines }
}
