import { partName } from './beside'
import type { BuildLine, TrialBuild } from './trial'

/** Cups that are the same drink but for how much of one thing is in them. */
export interface OneDose {
  readonly name: string
  /** grams in each glass, in the order of the builds */
  readonly grams: readonly number[]
}

/** What two glasses may differ in and still be weighed alike: common practice, no source. */
const ALIKE = 0.02

/**
 * Do these glasses differ in the amount of one thing, and in nothing else?
 *
 *     every part of the same name and kind weighs the same within 2 %, but for one, which weighs at least three different amounts;
 *     the brews are made alike
 *
 * @param builds  as poured; weighed grams where they were weighed
 * @returns       that thing with its grams; null where two things differ, or none does in three steps
 *
 * Source   our own rule: of two things that change together nobody can say which was liked
 * Checked  test/unit/drink/one-dose.test.ts
 */
export function findOneDose(builds: readonly TrialBuild[]): OneDose | null {
  const [first] = builds
  if (!first || builds.some((build) => brewOf(build) !== brewOf(first))) return null
  const amounts = builds.map(amountsOf)
  const parts = new Map(amounts.flatMap((one) => [...one].map(([part, { name }]) => [part, name] as const)))
  const differing = [...parts].flatMap(([part, name]) => {
    const grams = amounts.map((one) => one.get(part)?.grams ?? 0)
    return countSteps(grams) > 1 ? [{ name, grams }] : []
  })
  const [only, second] = differing
  return only && !second && countSteps(only.grams) >= 3 ? only : null
}

const brewOf = ({ brew }: TrialBuild) => JSON.stringify(brew)
const partOf = ({ name, kind, form }: BuildLine) => JSON.stringify([name, kind, form])

interface Amount {
  readonly name: string
  readonly grams: number
}

/** The same thing on two lines is one amount. */
function amountsOf({ lines }: TrialBuild): ReadonlyMap<string, Amount> {
  const amounts = new Map<string, Amount>()
  for (const line of lines) {
    const grams = line.weighedGrams ?? line.targetGrams
    amounts.set(partOf(line), { name: partName(line), grams: (amounts.get(partOf(line))?.grams ?? 0) + grams })
  }
  return amounts
}

/** Amounts that are further apart than two glasses weighed alike. */
function countSteps(grams: readonly number[]): number {
  const sorted = [...grams].sort((a, b) => a - b)
  return sorted.filter((one, at) => {
    const before = sorted[at - 1]
    return before === undefined || one - before > ALIKE * one
  }).length
}
