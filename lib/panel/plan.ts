/** A panel is planned, then poured, then read, then decided; it never goes back. */
export const stages = ['draft', 'open', 'closed', 'decided'] as const
export type Stage = (typeof stages)[number]

/** Which comparison the panel is for, fixed before the first cup. */
export const primaryKinds = ['all-pairs', 'against-house', 'one-pair'] as const
export type PrimaryKind = (typeof primaryKinds)[number]

/** What a plan may hold. Points are tenths of a point of the nine-point scale. */
export const planLimits = {
  cups: { least: 2, most: 6 },
  seats: { least: 1, most: 200 },
  furtherAspects: { most: 5 },
  /** the scale is eight points long; a difference as long as the scale can never be found */
  tenths: { least: 1, most: 79 },
  sampleMl: { least: 5, most: 250 },
} as const

export const overallLiking = 'Overall liking'

/** Share poured beyond what the seats drink: spills, foam, and what stays in the jug. */
export const overage = 0.15

export interface PlannedCup {
  readonly trialId: string
  readonly isHouse: boolean
  /** poured a second time on purpose, so that the difference between the two shows the panel's noise */
  readonly isDuplicate: boolean
}

export interface Plan {
  readonly cups: readonly PlannedCup[]
  readonly aspects: readonly string[]
  readonly seatCount: number
  readonly primaryKind: PrimaryKind
  readonly pair: readonly [string | null, string | null]
  readonly smallestDifference: number
  readonly notWorseMargin: number | null
}

export type PlanProblem =
  | 'too-few-cups'
  | 'too-many-cups'
  | 'same-trial-twice'
  | 'duplicate-of-nothing'
  | 'two-duplicates'
  | 'duplicate-of-two'
  | 'no-house-cup'
  | 'nothing-to-compare'
  | 'pair-incomplete'
  | 'pair-of-one'
  | 'pair-not-served'
  | 'same-aspect-twice'
  | 'margin-too-wide'

/** Where on the plan a problem belongs. */
export type PlanField = 'cups' | 'duplicate' | 'primaryKind' | 'pairA' | 'pairB' | 'aspects' | 'notWorseMargin'

export interface FoundProblem {
  readonly field: PlanField
  readonly problem: PlanProblem
}

/**
 * What keeps this plan from being poured?
 *
 * @param plan  as typed; a hidden duplicate is a further cup of a trial that is already among the cups
 * @returns     every problem, beside the field it belongs to; none means the plan holds together
 *
 * Source   our own rules; two to six cups a sitting is common practice for sweet milk coffees, no source
 * Checked  test/unit/panel/plan.test.ts
 * Limits   Does not know labels: whether every allergen was looked at is asked at opening.
 */
export function checkPlan(plan: Plan): readonly FoundProblem[] {
  return [
    ...cupProblems(plan.cups),
    ...comparisonProblems(plan),
    ...aspectProblems(plan.aspects),
    ...marginProblems(plan),
  ]
}

function cupProblems(cups: readonly PlannedCup[]): FoundProblem[] {
  const found: FoundProblem[] = []
  const own = cups.filter((cup) => !cup.isDuplicate).map((cup) => cup.trialId)
  const again = cups.filter((cup) => cup.isDuplicate).map((cup) => cup.trialId)
  if (cups.length < planLimits.cups.least) found.push({ field: 'cups', problem: 'too-few-cups' })
  if (cups.length > planLimits.cups.most) found.push({ field: 'cups', problem: 'too-many-cups' })
  // Of three cups that are two drinks, whoever finds the odd one out knows all three.
  if (again.length === 1 && own.length === 2 && own.includes(again[0] ?? ''))
    found.push({ field: 'duplicate', problem: 'duplicate-of-two' })
  if (new Set(own).size < own.length) found.push({ field: 'cups', problem: 'same-trial-twice' })
  if (again.length > 1) found.push({ field: 'duplicate', problem: 'two-duplicates' })
  if (again.some((trialId) => !own.includes(trialId)))
    found.push({ field: 'duplicate', problem: 'duplicate-of-nothing' })
  return found
}

function comparisonProblems({ cups, primaryKind, pair }: Plan): FoundProblem[] {
  const served = new Set(cups.map((cup) => cup.trialId))
  if (served.size < 2 && cups.length >= 2) return [{ field: 'cups', problem: 'nothing-to-compare' }]
  if (primaryKind === 'all-pairs') return []
  if (primaryKind === 'against-house') {
    return cups.some((cup) => cup.isHouse) ? [] : [{ field: 'primaryKind', problem: 'no-house-cup' }]
  }
  const [a, b] = pair
  if (a === null) return [{ field: 'pairA', problem: 'pair-incomplete' }]
  if (b === null) return [{ field: 'pairB', problem: 'pair-incomplete' }]
  if (a === b) return [{ field: 'pairB', problem: 'pair-of-one' }]
  const found: FoundProblem[] = []
  if (!served.has(a)) found.push({ field: 'pairA', problem: 'pair-not-served' })
  if (!served.has(b)) found.push({ field: 'pairB', problem: 'pair-not-served' })
  return found
}

function aspectProblems(aspects: readonly string[]): FoundProblem[] {
  const words = [overallLiking, ...aspects].map((aspect) => aspect.trim().toLowerCase())
  return new Set(words).size < words.length ? [{ field: 'aspects', problem: 'same-aspect-twice' }] : []
}

function marginProblems({ notWorseMargin }: Plan): FoundProblem[] {
  if (notWorseMargin === null || notWorseMargin <= planLimits.tenths.most) return []
  return [{ field: 'notWorseMargin', problem: 'margin-too-wide' }]
}

/**
 * How much of each cup is made before the panel sits down?
 *
 *     V = seats · ml · 1.15
 *
 * @returns  ml per cup, rounded up to a whole ml
 *
 * Source   common practice, no source: 15 % beyond what is drunk
 * Checked  test/unit/panel/plan.test.ts
 */
export function mlToPour(seats: number, sampleMl: number): number {
  // In hundredths, so that 24 · 40 · 1.15 is 1104 and not a hair more.
  return Math.ceil((seats * sampleMl * Math.round((1 + overage) * 100)) / 100)
}

/**
 * How many spare portions stand ready per jug?
 *
 *     one for every ten seats begun
 *
 * Source   common practice, no source
 * Checked  test/unit/panel/plan.test.ts
 */
export function sparePortions(seats: number): number {
  return Math.ceil(seats / 10)
}

/** May scores be counted into a result, and may anyone know which cup is which, at this stage? */
export function isUnblinded(stage: Stage): boolean {
  return stage === 'closed' || stage === 'decided'
}

/** A stage as the database keeps it. @returns null for a word that is none */
export function findStage(word: string): Stage | null {
  return stages.find((stage) => stage === word) ?? null
}
