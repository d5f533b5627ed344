import type { BuildLine, LineKind, Preparation, TrialBuild } from './trial'
import { changesBetween } from './change'

/**
 * Which two of these drinks are one and the same?
 *
 *     the first pair, in the order given, between which nothing changes
 *
 * @param builds  trials; of one without a line nobody knows yet what it is
 * @returns       their places in the list, or null where every two differ
 *
 * Source   our own rule; what counts as a change is `changesBetween`'s
 * Checked  test/unit/drink/tell-apart.test.ts
 */
export function sameDrinks(builds: readonly TrialBuild[]): readonly [number, number] | null {
  for (const [first, one] of builds.entries()) {
    if (one.lines.length === 0) continue
    const second = builds.findIndex((other, at) => at > first && changesBetween(one, other).length === 0)
    if (second >= 0) return [first, second]
  }
  return null
}

/** Words of an ingredient's name that name no ingredient. */
const GENERIC = new Set(
  (
    'and the with without from for one two three four five six seven eight nine ten cold hot iced warm drink version ' +
    'cup glass fresh roast roasted ground whole plain ready house made batch half new old'
  ).split(' '),
)

/** Less than this more of a thing is the same amount: what a scale for the kitchen cannot tell. */
const SAME_GRAMS = 0.05

/** What every glass of coffee has: how much of it says nothing, that it is there or not does. */
const EVERYWHERE: readonly LineKind[] = ['coffee', 'water', 'ice']

/**
 * Which ingredient that differs between these drinks does a title name?
 *
 *     a word of the title that is a word of an ingredient's name tells when some of the drinks have nothing of that
 *     name, or when they have more or less of it
 *
 * @param title   as tasters would read it
 * @param builds  the drinks they get
 * @returns       the name of the ingredient or preparation, or null where the title tells nothing
 *
 * Source   our own rule
 * Checked  test/unit/drink/tell-apart.test.ts
 * Limits   Knows names, not meanings: "dairy or not" passes. How much coffee, water or ice is in a glass may be named,
 *          since every glass has some. Plurals in s are looked through, in English.
 * Cost     each preparation is worked once
 */
export function ingredientTold(title: string, builds: readonly TrialBuild[]): string | null {
  const drinks = builds.map(partsOf)
  for (const word of wordsOf(title)) {
    const named = drinks.map((parts) => [...parts].filter(([name]) => wordsOf(name).has(word)))
    if (!differ(named)) continue
    const names = [...new Set(named.flat().map(([name]) => name))]
    const told = names.find((name) => differ(named.map((parts) => parts.filter(([one]) => one === name))))
    if (told !== undefined) return told
  }
  return null
}

/** @param named  of each drink, the parts that go by one name */
function differ(named: readonly (readonly (readonly [string, Amount])[])[]): boolean {
  const parts = named.flat()
  if (parts.length === 0) return false
  if (named.some((here) => here.length === 0)) return true
  if (parts.every(([, part]) => EVERYWHERE.includes(part.kind))) return false
  const grams = named.map((here) => here.reduce((sum, [, part]) => sum + part.grams, 0))
  return Math.max(...grams) - Math.min(...grams) >= SAME_GRAMS
}

function wordsOf(text: string): ReadonlySet<string> {
  const words = text
    .toLocaleLowerCase('en')
    .split(/[^\p{L}\p{N}]+/u)
    .map((word) => (word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word))
  return new Set(words.filter((word) => word.length >= 3 && !GENERIC.has(word) && !/^\d/.test(word)))
}

interface Amount {
  readonly grams: number
  readonly kind: LineKind
}

type Parts = Map<string, Amount>

/** Ingredients and preparations of a glass by name, with the grams of each that are in it. */
function partsOf(build: TrialBuild): Parts {
  const worked = new Map<Preparation, Parts>()
  const parts: Parts = new Map()
  for (const line of build.lines) add(parts, line, line.targetGrams, worked)
  return parts
}

function add(parts: Parts, line: BuildLine, grams: number, worked: Map<Preparation, Parts>): void {
  const put = (name: string, kind: LineKind, more: number) =>
    parts.set(name, { kind, grams: (parts.get(name)?.grams ?? 0) + more })
  if (!line.preparation) {
    put(line.name, line.kind, grams)
    return
  }
  put(line.preparation.name, line.kind, grams)
  for (const [name, part] of inputsOf(line.preparation, worked)) put(name, part.kind, part.grams * grams)
}

/** What is in one gram of a preparation. */
function inputsOf(preparation: Preparation, worked: Map<Preparation, Parts>): Parts {
  const before = worked.get(preparation)
  if (before) return before
  const parts: Parts = new Map()
  const output = preparation.outputGrams ?? preparation.inputs.reduce((sum, input) => sum + input.targetGrams, 0)
  if (output > 0) {
    for (const input of preparation.inputs) add(parts, input, input.targetGrams / output, worked)
  }
  worked.set(preparation, parts)
  return parts
}
