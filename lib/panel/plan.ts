import { roomOfDesign, type SetDesign } from './kinds/kinds'
import type { FoundInSetPlan, SetPlanProblem } from './kinds/set-kind'
import { cupsOnTray } from './portions'
import { questionProblem, type Question, type QuestionProblem } from './question'

/** A panel is planned, then poured, then read, then decided; it never goes back. One that nobody tasted may be called off. */
export const stages = ['draft', 'open', 'closed', 'decided', 'called-off'] as const
export type Stage = (typeof stages)[number]

/**
 * What the owner wants to know: which of several is liked best, whether one is liked better than a yardstick, or whether
 * it is at least as good as the yardstick.
 */
export const aims = ['best', 'better', 'as-good'] as const
export type Aim = (typeof aims)[number]

/** Which comparison the panel is for, fixed before the first cup. */
export const primaryKinds = ['all-pairs', 'against-house', 'one-pair'] as const
export type PrimaryKind = (typeof primaryKinds)[number]

/** What a plan may hold. Points are tenths of a point of the nine-point scale. */
export const planLimits = {
  /** what the serving orders are proven for */
  cups: { least: 2, most: 15 },
  /** more in one sitting tire the palate */
  cupsPerTaster: { least: 2, most: 6 },
  /** where tasters get some of the cups: each cup is tasted so often at least, or the cups do not hang together */
  tastingsPerCup: 3,
  seats: { least: 1, most: 200 },
  /** asked beside overall liking */
  questions: { most: 14 },
  /** the scale is eight points long; a difference as long as the scale can never be found */
  tenths: { least: 1, most: 79 },
  sampleMl: { least: 5, most: 250 },
  /** letters in a title */
  title: 80,
} as const

export const overallLiking = 'Overall liking'

export interface PlannedCup {
  readonly trialId: string
  readonly isHouse: boolean
  /** poured a second time on purpose, so that the difference between the two shows the panel's noise */
  readonly isDuplicate: boolean
}

export interface Plan {
  readonly cups: readonly PlannedCup[]
  /** asked of each cup beside overall liking */
  readonly aspects: readonly Question[]
  readonly seatCount: number
  /** null: every taster gets them all */
  readonly cupsPerTaster: number | null
  readonly aim: Aim
  readonly primaryKind: PrimaryKind
  /** the one that is asked about, and its yardstick */
  readonly pair: readonly [string | null, string | null]
  readonly smallestDifference: number
  readonly notWorseMargin: number | null
  /** what can be seen and gives a cup away, in words */
  readonly seenThrough: string | null
  /** somebody looked at the cups and says that nothing does */
  readonly nothingSeen: boolean
  /** what is asked about the cups together; absent where each is asked about by itself */
  readonly asks?: SetDesign | undefined
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
  | 'no-yardstick'
  | 'margin-missing'
  | 'too-many-for-one'
  | 'duplicate-of-some'
  | 'too-few-seats'
  | QuestionProblem
  | SetPlanProblem
  | 'seen-both'
  | 'seen-not-said'

/** Where on the plan a problem belongs. */
export type PlanField =
  | 'cups'
  | 'duplicate'
  | 'primaryKind'
  | 'pairA'
  | 'pairB'
  | 'aspects'
  | 'notWorseMargin'
  | 'cupsPerTaster'
  | 'seatCount'
  | 'seenThrough'
  | FoundInSetPlan['field']

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
 * Source   our own rules; two to six cups a taster in one sitting is common practice for sweet milk coffees, no source
 * Checked  test/unit/panel/plan.test.ts
 * Limits   Does not know labels: whether every allergen was looked at is asked at opening.
 */
export function checkPlan(plan: Plan): readonly FoundProblem[] {
  const { asks } = plan
  return [
    ...(asks ? roomOfDesign(asks).problems(plan, asks) : likingProblems(plan)),
    ...(plan.nothingSeen && plan.seenThrough !== null ? [seen('seen-both')] : []),
  ]
}

function likingProblems(plan: Plan): readonly FoundProblem[] {
  return [
    ...cupProblems(plan.cups),
    ...shareProblems(plan),
    ...comparisonProblems(plan),
    ...aspectProblems(plan.aspects),
    ...marginProblems(plan),
  ]
}

/**
 * What keeps this plan from being opened now?
 *
 * @returns  what `checkPlan` finds, and what a draft may leave open but a panel may not: that somebody looked
 *
 * Checked  test/unit/panel/plan.test.ts
 */
export function checkOpening(plan: Plan): readonly FoundProblem[] {
  const said = plan.nothingSeen || plan.seenThrough !== null
  return [...checkPlan(plan), ...(said ? [] : [seen('seen-not-said')])]
}

const seen = (problem: 'seen-both' | 'seen-not-said'): FoundProblem => ({ field: 'seenThrough', problem })

/**
 * What did a panel ask that was planned before the aim was?
 *
 * @param stored  the panel's own word, null before there was one
 * @returns       that word; else every pair was for the best, and a yardstick for better or, with a margin, for as good
 *
 * Checked  test/unit/panel/plan.test.ts
 */
export function findAim(
  stored: string | null,
  { primaryKind, notWorseMargin }: Pick<Plan, 'primaryKind' | 'notWorseMargin'>,
): Aim {
  const said = aims.find((aim) => aim === stored)
  if (said !== undefined) return said
  if (primaryKind === 'all-pairs') return 'best'
  return notWorseMargin === null ? 'better' : 'as-good'
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

/** Fewer cups each than the plan has. */
function shareProblems({ cups, cupsPerTaster, seatCount }: Plan): FoundProblem[] {
  const most = planLimits.cupsPerTaster.most
  if (cupsOnTray({ cups: cups.length, cupsPerTaster }) > most && cups.length <= planLimits.cups.most) {
    return [{ field: 'cupsPerTaster', problem: 'too-many-for-one' }]
  }
  if (cupsPerTaster === null || cupsPerTaster >= cups.length) return []
  const found: FoundProblem[] = []
  // Only some tasters would get both pourings, and whoever got one of them would tell nothing of the noise.
  if (cups.some((cup) => cup.isDuplicate)) found.push({ field: 'duplicate', problem: 'duplicate-of-some' })
  if (seatCount * cupsPerTaster < planLimits.tastingsPerCup * cups.length) {
    found.push({ field: 'seatCount', problem: 'too-few-seats' })
  }
  return found
}

function comparisonProblems({ cups, aim, primaryKind, pair }: Plan): FoundProblem[] {
  const served = new Set(cups.map((cup) => cup.trialId))
  if (served.size < 2 && cups.length >= 2) return [{ field: 'cups', problem: 'nothing-to-compare' }]
  if (primaryKind === 'all-pairs') return aim === 'best' ? [] : [{ field: 'primaryKind', problem: 'no-yardstick' }]
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

function aspectProblems(aspects: readonly Question[]): FoundProblem[] {
  const names = [overallLiking, ...aspects.map(({ name }) => name)].map((name) => name.trim().toLowerCase())
  const twice: PlanProblem[] = new Set(names).size < names.length ? ['same-aspect-twice'] : []
  const problems = [...twice, ...aspects.flatMap((one) => questionProblem(one) ?? [])]
  return problems.map((problem) => ({ field: 'aspects' as const, problem }))
}

function marginProblems({ aim, notWorseMargin }: Plan): FoundProblem[] {
  if (aim === 'as-good' && notWorseMargin === null) return [{ field: 'notWorseMargin', problem: 'margin-missing' }]
  if (notWorseMargin === null || notWorseMargin <= planLimits.tenths.most) return []
  return [{ field: 'notWorseMargin', problem: 'margin-too-wide' }]
}

/** May scores be counted into a result, and may anyone know which cup is which, at this stage? */
export function isUnblinded(stage: Stage): boolean {
  return stage === 'closed' || stage === 'decided'
}

/** Will nobody taste at this panel any more? */
export function isOver(stage: string): boolean {
  return stage !== 'draft' && stage !== 'open' && findStage(stage) !== null
}

/** A stage as the database keeps it. @returns null for a word that is none */
export function findStage(word: string): Stage | null {
  return stages.find((stage) => stage === word) ?? null
}
