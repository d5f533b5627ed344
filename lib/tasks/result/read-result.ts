import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findNames } from '@/lib/db/people'
import { findClosingAnswer, findDecisionsOfPanel } from '@/lib/db/results'
import { findSetKind, type PanelKind } from '@/lib/panel/kinds/kinds'
import { placeTellsCup } from '@/lib/panel/place-and-cup'
import { findUnpoured } from '@/lib/panel/unpoured'
import { findTooMuch, type TooMuch } from '@/lib/panel/who-may-taste'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import { answerPanel, type PanelAnswer } from './answer-panel'
import { asideReadings, seatsAside, type AsideReading, type SeatAside } from './aside-readings'
import { besideVerdict, sayBeside } from './beside-verdict'
import { findClosedServings, inHeadline, type ClosedServing } from './closed-servings'
import { keptLater, readClosingAnswer, whatChanged, type AnsweredAtClosing } from './closing-answer'
import { yardstickOf } from './headline'
import type { ChoiceResult } from './choice-answer'
import type { DifferenceResult } from './difference-answer'
import type { RankResult } from './rank-result'
import type { FurtherAnswers } from './further-questions'
import { answeredSets } from './answered-sets'
import { countedScore, type ResultCup } from './panel-answers'
import { correctionsOf, type Correction } from './result-corrections'
import type { Needed } from './needed-tasters'
import { plannedClaims, type PlannedClaim } from './planned-claims'
import { andList, nameOf, type Verdict } from './say-verdict'
import { decisionMark, type OpenedWith } from '../opened-with'
import type { Actor, World } from '../world'

/** How often each step of the scale was chosen for one cup. */
export interface CupSpread {
  readonly letter: string
  /** counts for 1 … 9 */
  readonly counts: readonly number[]
}

export interface PanelResult extends FurtherAnswers {
  readonly id: string
  readonly title: string
  readonly question: string
  readonly stage: string
  /** what was asked of tasters */
  readonly kind: PanelKind
  /** which of two is preferred, where that was asked */
  readonly choice: ChoiceResult | null
  /** whether two can be told apart, where that was asked */
  readonly difference: DifferenceResult | null
  /** in which order the cups are liked, where that was asked */
  readonly rank: RankResult | null
  readonly recipe: { readonly id: string; readonly name: string }
  readonly openedAt: Date | null
  readonly closedAt: Date | null
  readonly isDemo: boolean
  readonly seenThrough: string | null
  readonly cups: readonly ResultCup[]
  /** what is said: as it was found at closing, or today's where nothing readable was kept */
  readonly verdict: Verdict
  readonly found: Found
  /** what the same scores say today, where that is not what was found at closing */
  readonly today: { readonly verdict: Verdict; readonly changed: readonly string[] } | null
  readonly margin: number | null
  /** the planned comparisons, each with its joint interval */
  readonly claims: readonly PlannedClaim[]
  /** the analysis of the plan, which carries the claims */
  readonly primary: AcceptanceAnswer | null
  /** every cup, as one looks at them beside it */
  readonly liking: AcceptanceAnswer | null
  readonly why: string | null
  readonly needed: Needed | null
  readonly spread: readonly CupSpread[]
  readonly comments: readonly {
    readonly letter: string
    readonly text: string
    readonly seat: number
    /** written about a cup whose scores are set apart */
    readonly apart: boolean
    /** the house has set its seat aside */
    readonly aside: boolean
  }[]
  readonly missing: Missing
  /** seats that the house has set aside, with why, by whom and when */
  readonly seatsAside: readonly (SeatAside & { readonly by: string })[]
  /** the same panel read with, or without, seats that are set aside; it carries no claim */
  readonly asideReadings: readonly AsideReading[]
  readonly corrections: readonly (Correction & { readonly by: string })[]
  /** a trial was tasted at one place always, and alone there: what is said of it may be said of the place */
  readonly placeTellsCup: boolean
  /** what could change how far one trusts the verdict, in words */
  readonly beside: readonly string[]
  readonly houseTrialId: string | null
  /** of what stands decided now: a decision says what it was taken beside */
  readonly decisionMark: OpenedWith
  readonly decisions: Awaited<ReturnType<typeof findDecisionsOfPanel>>
  readonly deciders: ReadonlyMap<string, string>
}

/** Where the sentences come from: kept at closing, computed at an upgrade for a panel closed before, or computed just now. */
export type Found =
  | { readonly how: 'closing' | 'upgrade'; readonly at: Date; readonly method: string; readonly program: string }
  | { readonly how: 'not-kept' | 'unreadable' | 'not-computed' }

/** What is not in the numbers, and why. */
export interface Missing {
  readonly seats: number
  readonly notTaken: readonly number[]
  readonly left: readonly number[]
  readonly unscored: number
  readonly skipped: readonly { readonly letter: string; readonly seat: number; readonly reason: string }[]
  readonly late: readonly {
    readonly letter: string
    readonly seat: number
    /** the score, or what was said about a set */
    readonly value: number | string
    readonly at: Date
  }[]
  readonly repeats: readonly number[]
  /** scored, though nobody ticked the cup as poured and no phone confirmed its code; null where nobody ticked any cup */
  readonly unpoured: readonly { readonly letter: string; readonly seat: number }[] | null
  /** seats whose taster came to know too much: cups scored before that count, cups scored after it are set apart */
  readonly barred: readonly {
    readonly seat: number
    readonly why: TooMuch
    readonly at: Date
    readonly counted: number
    readonly apart: number
  }[]
}

/** Everything the result page shows. @returns null while the panel is not closed, or not there */
export async function readResult(world: World, actor: Actor, panelId: string): Promise<PanelResult | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (!panel || (panel.stage !== 'closed' && panel.stage !== 'decided')) return null
  const [servings, stored, decisions, house] = await Promise.all([
    findClosedServings(world.db, actor.cafeId, panelId),
    findClosingAnswer(world.db, actor.cafeId, panelId),
    findDecisionsOfPanel(world.db, actor.cafeId, panelId),
    findHouseRecipe(world.db, actor.cafeId, panel.recipe.id),
  ])
  const counted = inHeadline(servings)
  const kept = stored && readClosingAnswer(stored.text)
  const later = keptLater(kept)
  const today = answerPanel(panel, counted, later)
  const aside = seatsAside(servings)
  const { cups } = today
  const corrections = correctionsOf(servings, cups, panel.attributes)
  const deciders = await findNames(
    world.db,
    [...decisions, ...corrections, ...aside].flatMap(({ byId }) => (byId ? [byId] : [])),
  )
  const likingId = panel.attributes[0]?.id ?? ''
  const claims = today.primary ? plannedClaims(today.primary, yardstickOf(today.plan)) : []
  return {
    id: panel.id,
    title: panel.title,
    question: panel.question,
    stage: panel.stage,
    recipe: panel.recipe,
    openedAt: panel.openedAt,
    closedAt: panel.closedAt,
    isDemo: panel.isDemo,
    seenThrough: panel.seenThrough,
    cups,
    ...asFound(stored, kept, today),
    kind: findSetKind(panel.kind) ?? 'liking',
    ...{ choice: today.choice, rank: today.rank, difference: today.difference },
    margin: today.plan.margin,
    claims,
    primary: today.primary,
    liking: today.liking,
    spread: spreadOf(counted, cups, likingId),
    aspects: today.aspects,
    drops: today.drops,
    ticked: today.ticked,
    comments: commentsOf(servings, cups),
    missing: panel.kind === 'liking' ? missingOf(servings, cups, likingId) : missingOfSets(servings, cups),
    seatsAside: aside.map((one) => ({ ...one, by: deciders.get(one.byId ?? '') ?? 'somebody' })),
    asideReadings: asideReadings(panel, servings, later),
    corrections: corrections.map((one) => ({ ...one, by: correctedBy(one, deciders) })),
    placeTellsCup: placeTellsCup(
      counted
        .filter(({ seat }) => seat.takenAt !== null)
        .map(({ cup: { trialId }, position }) => ({ trialId, position })),
    ),
    beside:
      panel.kind === 'liking'
        ? besideVerdict(counted, cups, likingId, today.liking, claims).map((one) => sayBeside(one, nameOf(cups)))
        : [],
    houseTrialId: house?.trialId ?? null,
    decisionMark: decisionMark(decisions.length, house?.trialId ?? null),
    decisions,
    deciders,
  }
}

const correctedBy = ({ byId, from }: Correction, names: ReadonlyMap<string, string>) =>
  from === 'phone' ? 'another phone' : (names.get(byId ?? '') ?? 'somebody')

/** The sentences kept at closing stand; what the statistics say today stands beside them where it differs. */
function asFound(
  stored: Awaited<ReturnType<typeof findClosingAnswer>>,
  kept: ReturnType<typeof readClosingAnswer> | null,
  today: PanelAnswer,
): Pick<PanelResult, 'verdict' | 'found' | 'today' | 'needed' | 'why'> {
  const { verdict, needed, why } = today
  const computedNow = (how: 'not-kept' | 'unreadable' | 'not-computed') => ({
    verdict,
    found: { how },
    today: null,
    needed,
    why,
  })
  if (!stored || !kept) return computedNow('not-kept')
  if (!kept.ok) return computedNow('unreadable')
  if (kept.value.outcome === 'not-computed') return computedNow('not-computed')
  const { method, program, ...then } = kept.value
  const changed = whatChanged(kept.value, today)
  return {
    verdict: then.verdict,
    needed: neededOf(then.needed),
    why: then.why,
    found: {
      how: stored.how === 'upgrade' ? 'upgrade' : 'closing',
      at: stored.at,
      method,
      program,
    },
    today: changed.length > 0 ? { verdict, changed } : null,
  }
}

/** A kept figure that was no number is left out with what it belongs to. */
function neededOf(kept: AnsweredAtClosing['needed']): Needed | null {
  if (!kept) return null
  const { tasters, difference, spread } = kept
  if (tasters === null || difference === null || spread === null) return null
  const isMargin = 'for' in kept && kept.for === 'margin'
  const [least, most] = 'least' in kept ? [kept.least ?? tasters, kept.most ?? tasters] : [tasters, tasters]
  return { tasters, least, most, difference, for: isMargin ? 'margin' : 'difference', spread }
}

const letterOf = (cups: readonly ResultCup[], serving: ClosedServing) =>
  cups.find((cup) => cup.trialId === serving.cup.trialId)?.letter ?? '?'

function spreadOf(servings: readonly ClosedServing[], cups: readonly ResultCup[], likingId: string): CupSpread[] {
  return cups.map((cup) => {
    const counts = Array.from({ length: 9 }, () => 0)
    for (const serving of servings) {
      const value = serving.cup.trialId === cup.trialId ? countedScore(serving, likingId) : null
      if (value !== null) counts[value - 1] = (counts[value - 1] ?? 0) + 1
    }
    return { letter: cup.letter, counts }
  })
}

function commentsOf(servings: readonly ClosedServing[], cups: readonly ResultCup[]): PanelResult['comments'] {
  return servings
    .flatMap((serving) =>
      serving.comment
        ? [
            {
              letter: letterOf(cups, serving),
              text: serving.comment,
              seat: serving.seat.number,
              apart: serving.apart.length > 0,
              aside: serving.aside !== null,
            },
          ]
        : [],
    )
    .sort((a, b) => a.letter.localeCompare(b.letter) || a.seat - b.seat)
}

/** Of sets: what is left out is left out together, so that each set stands in its place once, by its letters. */
function missingOfSets(servings: readonly ClosedServing[], cups: readonly ResultCup[]): Missing {
  const of = (some: readonly ClosedServing[]) => answeredSets(some, cups)
  const spelled = (letters: readonly string[]) => andList([...new Set(letters)].toSorted())
  const known = missingOf(servings, cups, '')
  const lateSets = (some: readonly ClosedServing[]) =>
    [0, 1].flatMap((nth) =>
      of(
        some.map((one) => {
          const late = one.set?.uncounted.filter(({ why }) => why === 'late') ?? []
          return { ...one, skippedAt: null, set: one.set && { ...one.set, answers: late.slice(nth, nth + 1) } }
        }),
      ),
    )
  const apart = servings.filter(({ set }) => (set?.apart.length ?? 0) > 0)
  return {
    ...known,
    unscored: of(inHeadline(servings)).filter(
      ({ letters, skipReason, seat }) =>
        letters === null && skipReason === null && !apart.some((one) => one.seat.number === seat),
    ).length,
    skipped: of(inHeadline(servings)).flatMap(({ seat, served, skipReason }) =>
      skipReason === null ? [] : [{ letter: spelled(served), seat, reason: skipReason || 'no reason given' }],
    ),
    late: lateSets(servings).flatMap(({ seat, served, letters, at }) =>
      letters === null || at === null
        ? []
        : [{ letter: spelled(served), seat, value: letters.join(', ') || 'no preference', at: new Date(at) }],
    ),
    barred: known.barred.map((one) => ({
      ...one,
      counted: of(servings).filter(({ seat, letters }) => seat === one.seat && letters !== null).length,
      apart: new Set(apart.filter(({ seat }) => seat.number === one.seat).map(({ set }) => set?.number)).size,
    })),
  }
}

function missingOf(servings: readonly ClosedServing[], cups: readonly ResultCup[], likingId: string): Missing {
  const seats = new Map(servings.map((serving) => [serving.seat.number, serving.seat]))
  const numbers = (which: (seat: ClosedServing['seat']) => boolean) =>
    [...seats].flatMap(([number, seat]) => (which(seat) ? [number] : []))
  const taken = inHeadline(servings).filter((serving) => serving.seat.takenAt !== null || serving.scores.length > 0)
  return {
    seats: seats.size,
    notTaken: numbers((seat) => seat.takenAt === null && !seat.onPaper),
    left: numbers((seat) => seat.leftAt !== null),
    unscored: taken.filter((serving) => saysNothing(serving, likingId)).length,
    skipped: taken.flatMap((serving) =>
      serving.skippedAt
        ? [
            {
              letter: letterOf(cups, serving),
              seat: serving.seat.number,
              reason: serving.skipReason ?? 'no reason given',
            },
          ]
        : [],
    ),
    late: servings.flatMap((serving) =>
      serving.late
        .filter((one) => one.attributeId === likingId)
        .map((one) => ({ letter: letterOf(cups, serving), seat: serving.seat.number, value: one.value, at: one.at })),
    ),
    unpoured: unpouredOf(servings, cups),
    repeats: numbers((seat) => seat.repeatOfSeatId !== null),
    barred: barredSeats(servings, likingId),
  }
}

function unpouredOf(servings: readonly ClosedServing[], cups: readonly ResultCup[]): Missing['unpoured'] {
  const standing = servings.map((serving) => ({
    ...serving,
    hasScore: serving.scores.length + serving.apart.length + (serving.set?.answers.length ?? 0) > 0,
  }))
  return findUnpoured(standing)?.map((one) => ({ letter: letterOf(cups, one), seat: one.seat.number })) ?? null
}

function saysNothing(serving: ClosedServing, likingId: string): boolean {
  const isApart = serving.apart.some(({ attributeId }) => attributeId === likingId)
  return countedScore(serving, likingId) === null && serving.skippedAt === null && !isApart
}

function barredSeats(servings: readonly ClosedServing[], likingId: string): Missing['barred'] {
  const seats = new Map(servings.map(({ seat }) => [seat.number, seat]))
  return [...seats.values()].flatMap((seat) => {
    const why = findTooMuch(seat)
    if (why === null || seat.barredAt === null) return []
    const own = servings.filter((serving) => serving.seat.number === seat.number)
    const counted = own.filter((serving) => countedScore(serving, likingId) !== null).length
    const apart = own.filter((serving) => serving.apart.some(({ attributeId }) => attributeId === likingId)).length
    return [{ seat: seat.number, why, at: seat.barredAt, counted, apart }]
  })
}
