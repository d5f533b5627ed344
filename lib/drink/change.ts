import type { Brew, BuildFigures, BuildLine, TrialBuild } from './trial'
import { contentsOfLine } from './preparation'
import type { Worked } from './preparation'
import { written } from './figure'
import type { Figure } from './figure'

/** One thing in which two trials differ, as a row of a table and as a clause of a sentence. */
export type Change = {
  readonly what: string
  readonly before: string
  readonly after: string
  readonly clause: string
  /** Lines it touches, and whether it was made only to keep sugar or water the same. */
  readonly keeps: boolean
  /** One thing stands in the place of another. */
  readonly swaps: boolean
}

/** Which lines of two trials stand for each other: by key and name, then name, then role, then alone. */
export function pairLines(
  before: readonly BuildLine[],
  after: readonly BuildLine[],
): readonly { readonly before: BuildLine | null; readonly after: BuildLine | null }[] {
  const left = new Set(after)
  const partners = new Map<BuildLine, BuildLine>()
  const ways: readonly ((a: BuildLine, b: BuildLine) => boolean)[] = [
    (a, b) => a.key === b.key && a.name === b.name,
    (a, b) => a.name === b.name,
    (a, b) => a.key === b.key && a.kind === b.kind,
    (a, b) => a.role === b.role && a.kind === b.kind,
  ]
  for (const same of ways) {
    for (const line of before) {
      if (partners.has(line)) continue
      const twin = [...left].find((one) => same(line, one))
      if (!twin) continue
      partners.set(line, twin)
      left.delete(twin)
    }
  }
  const kept = before.map((line) => ({ before: line, after: partners.get(line) ?? null }))
  return [...kept, ...[...left].map((line) => ({ before: null, after: line }))]
}

const grams = (line: BuildLine) => `${written(line.targetGrams, 1)} g`
const batch = (line: BuildLine) => (line.preparation ? ` (batch ${line.preparation.batch})` : '')

/** Of a change that stands by itself. */
const alone = { keeps: false, swaps: false } as const

function lineChange(before: BuildLine | null, after: BuildLine | null): Change | null {
  if (before === null) {
    if (after === null) return null
    const clause = `adds ${grams(after)} of ${after.name}`
    return { what: after.name, before: 'none', after: grams(after), clause, ...alone }
  }
  if (after === null) {
    return {
      what: before.name,
      before: grams(before),
      after: 'none',
      clause: `leaves out ${before.name}`,
      ...alone,
    }
  }
  const amount = Math.abs(before.targetGrams - after.targetGrams) > 1e-9
  const other = before.name !== after.name
  const rebatched = batch(before) !== batch(after)
  const warmer = before.temperature !== after.temperature
  const reground = before.grind !== after.grind
  if (!amount && !other && !rebatched && !warmer && !reground) return null
  const shown = (line: BuildLine) =>
    [
      grams(line),
      other ? `of ${line.name}` : '',
      rebatched ? batch(line).trim() : '',
      warmer ? degrees(line.temperature) : '',
      reground ? groundWords(line.grind) : '',
    ]
      .filter((word) => word !== '')
      .join(' ')
  const clause = other
    ? `uses ${shown(after)} in place of ${shown(before)}`
    : `${before.name} ${shown(before)} → ${shown(after)}`
  return { what: before.name, before: shown(before), after: shown(after), clause, keeps: false, swaps: other }
}

const groundWords = (grind: string | null) => (grind === null ? 'grind not given' : `ground ${grind}`)

const degrees = (celsius: number | null) => (celsius === null ? 'temperature not given' : `${written(celsius, 1)} °C`)

function fieldChange(what: string, before: string, after: string): Change | null {
  return before === after ? null : { what, before, after, clause: `${what} ${before} → ${after}`, ...alone }
}

const KIND_WORDS = { 'water-in': 'coffee to water', 'beverage-out': 'dose to beverage' } as const

function ratioWords(brew: Brew | null): string {
  if (brew?.ratio == null) return 'not given'
  return `1:${written(brew.ratio)} ${brew.ratioKind ? KIND_WORDS[brew.ratioKind] : ''}`.trim()
}

const minutesOf = ({ brew }: TrialBuild) => (brew?.seconds == null ? null : brew.seconds / 60)

const orNot = (value: number | null | undefined, unit: string) =>
  value == null ? 'not given' : `${written(value)} ${unit}`

/**
 * In what do two trials differ?
 *
 * @param before  the parent, or the one on the left
 * @param after   the child, or the one on the right
 * @returns       one entry per thing; names, weights as poured and money are not the drink and are left out
 *
 * Source   our own rule: a line's target, ingredient, batch, temperature or grind; method, ratio, water and time of the
 *          brew, temperatures, vessel
 * Checked  test/unit/drink/change.test.ts
 * Limits   Does not look inside a preparation: another batch is another thing.
 */
export function changesBetween(before: TrialBuild, after: TrialBuild): readonly Change[] {
  const lines = pairLines(before.lines, after.lines).map((pair) => lineChange(pair.before, pair.after))
  const fields = [
    fieldChange('method', before.brew?.method ?? 'not given', after.brew?.method ?? 'not given'),
    fieldChange('brew ratio', ratioWords(before.brew), ratioWords(after.brew)),
    fieldChange(
      'brewing water',
      degrees(before.brew?.waterTemperature ?? null),
      degrees(after.brew?.waterTemperature ?? null),
    ),
    fieldChange('brewing time', orNot(minutesOf(before), 'min'), orNot(minutesOf(after), 'min')),
    fieldChange('coffee', degrees(before.coffeeTemperature), degrees(after.coffeeTemperature)),
    fieldChange('ice', degrees(before.iceTemperature), degrees(after.iceTemperature)),
    fieldChange('retention', orNot(before.brew?.retention, 'g/g'), orNot(after.brew?.retention, 'g/g')),
    fieldChange('vessel', before.vessel?.name ?? 'not given', after.vessel?.name ?? 'not given'),
  ]
  const found = [...lines, ...fields].filter((one): one is Change => one !== null)
  return markKept(before, after, found)
}

/** A syrup swapped for another with sugar and water both held is one change; the water line only keeps the balance. */
function markKept(before: TrialBuild, after: TrialBuild, changes: readonly Change[]): readonly Change[] {
  const worked: Worked = new Map()
  const total = (build: TrialBuild, measure: 'sugars' | 'grams') =>
    build.lines.reduce(
      (all, line) => all + contentsOfLine({ ...line, weighedGrams: null }, build.brew, worked)[measure].total,
      0,
    )
  const same = (measure: 'sugars' | 'grams') => Math.abs(total(before, measure) - total(after, measure)) < 0.1
  const waters = new Set(
    [...before.lines, ...after.lines].filter(({ kind }) => kind === 'water').map(({ name }) => name),
  )
  const swapped = changes.some(({ swaps, what }) => swaps && !waters.has(what))
  if (!swapped || !same('sugars') || !same('grams')) return changes
  return changes.map((one) => (waters.has(one.what) ? { ...one, keeps: true } : one))
}

/** How many things differ? What only keeps the balance does not count. Above 1, no difference has one cause. */
export function changedThings(changes: readonly Change[]): number {
  return changes.filter(({ keeps }) => !keeps).length
}

/** What changed, as one sentence? @param after name of the child, @param before name of the parent */
export function changeSentence(after: string, before: string, changes: readonly Change[]): string {
  if (changes.length === 0) return `${after} is the same drink as ${before}.`
  const clauses = changes.map(({ clause, keeps }) => (keeps ? `${clause} to keep the balance` : clause))
  return `${after} differs from ${before}: ${clauses.join('; ')}.`
}

/** What changed from its parent, in one line for a list? "Syrup 20 g → 30 g" */
export function changeLine(changes: readonly Change[]): string {
  return changes.length === 0 ? 'no change' : changes.map(({ clause }) => clause).join('; ')
}

/** What to say when more than one thing differs, or null. */
export function manyChangesWarning(changes: readonly Change[]): string | null {
  const count = changedThings(changes)
  if (count <= 1) return null
  const things = changes.filter(({ keeps }) => !keeps).map(({ what }) => what)
  return `${count} things differ (${things.join(', ')}): a difference in taste will not have one cause.`
}

/** One figure of two trials side by side; null where it is not known. */
export type FigureRow = {
  readonly what: string
  /** the unit of both, but for money: a trial frozen before the café changed its currency keeps its own */
  readonly units: { readonly before: string; readonly after: string }
  readonly before: number | null
  readonly after: number | null
}

/** One end of what is only known between two. */
const end = (of: BuildFigures['caffeine'], which: 'low' | 'high'): Figure =>
  of.known ? { ...of, value: of[which] } : of

const ROWS: readonly (readonly [string, (figures: BuildFigures) => Figure])[] = [
  ['total mass', (f) => f.totalMass],
  ['volume when built', (f) => f.volume],
  ['coffee solids after melt', (f) => f.solidsAfterMelt],
  ['sugars', (f) => f.sugars],
  ['free sugars', (f) => f.freeSugars],
  ['fat', (f) => f.fat],
  ['energy', (f) => f.energy],
  ['caffeine, low end', (f) => end(f.caffeine, 'low')],
  ['caffeine, high end', (f) => end(f.caffeine, 'high')],
  ['cost of a glass', (f) => f.cost.perGlass],
]

/** How do the figures of two trials compare? @param before, after results of `computeBuild` */
export function figureRows(before: BuildFigures, after: BuildFigures): readonly FigureRow[] {
  return ROWS.map(([what, pick]) => rowOf(what, pick(before), pick(after)))
}

const rowOf = (what: string, before: Figure, after: Figure): FigureRow => ({
  what,
  units: { before: before.unit, after: after.unit },
  before: before.known ? before.value : null,
  after: after.known ? after.value : null,
})

/**
 * Which figures does a kept sheet give otherwise today than when it was kept? Only a formula that was mended since can be why.
 *
 * @param then, now results of `computeBuild` of one and the same trial
 */
export function mendedFigures(then: BuildFigures, now: BuildFigures): readonly FigureRow[] {
  return figureRows(then, now).filter(({ before, after }) => {
    if (before === null || after === null) return before !== after
    return Math.abs(before - after) > 1e-9 * Math.max(1, Math.abs(before))
  })
}
