import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findLiking, findPanelsSharing } from '@/lib/db/results'
import { findSetAside } from '@/lib/panel/set-aside'
import { givenBlind } from '@/lib/panel/who-may-taste'
import { foundClaims, scoreStep } from '@/lib/stats/liking/claims'
import { likingReading, type LikingReading } from '@/lib/stats/liking/liking-reading'
import { UnusableReadings, type Interval } from '@/lib/stats/outcome'
import { repeats } from '@/lib/stats/over-panels/repeats'
import { claimPlan } from '@/lib/stats/liking/claim-plan'
import { planned, planOptions, resultCups, scoreRows, type ResultCup } from './panel-answers'
import type { Actor, World } from '../world'

/** What one panel found of two trials, taken alone. Points, first less second. */
export interface HeldPanel {
  readonly id: string
  readonly title: string
  readonly closedAt: Date | null
  /** who scored both */
  readonly tasters: number
  readonly difference: number
  readonly interval: Interval
}

/** Two trials that several panels compared. */
export interface PairMemory {
  readonly first: ResultCup
  readonly second: ResultCup
  /** newest first */
  readonly held: readonly HeldPanel[]
  /** how often the two were compared in all, panels from which no interval can be had included */
  readonly tries: number
  /** the chance, at most, that one of so many panels claims a difference of two that are alike */
  readonly falseClaim: number
  /** over the panels held; null where only one of them gives an interval */
  readonly together: { readonly difference: number; readonly interval: Interval; readonly next: Interval | null } | null
}

const LEVEL = 0.95
/** Older panels of the same two are counted, and not worked out again. */
const NEWEST = 8

/**
 * What do all panels say together about the pairs that this one was planned for?
 *
 *     each panel's own difference and error by tasters; together by random effects (REML), Hartung–Knapp interval from two
 *     panels, where the next panel would lie from three. To look at: no claim is made of it.
 *
 * @returns one for each planned pair that another closed panel poured too; null while this panel is not closed
 */
export async function readMemory(world: World, actor: Actor, panelId: string): Promise<readonly PairMemory[] | null> {
  const { db } = world
  const panel = await findPanel(db, actor.cafeId, panelId)
  if (!panel || (panel.stage !== 'closed' && panel.stage !== 'decided')) return null
  const cups = resultCups(panel)
  const cupOf = new Map(cups.map((cup) => [cup.letter, cup]))
  const sharing = await findPanelsSharing(
    db,
    actor.cafeId,
    cups.map(({ trialId }) => trialId),
  )
  if (sharing.length < 2) return []
  const pairs = claimPlan([...cupOf.keys()], planOptions(planned(panel, cups))).pairs.flatMap(([a, b]) => {
    const [first, second] = [cupOf.get(a), cupOf.get(b)]
    const both = sharing.filter(({ trialIds }) => [first, second].every((cup) => trialIds.includes(cup?.trialId ?? '')))
    return first && second && both.length > 1 ? [{ first, second, both }] : []
  })
  const wanted = new Set(pairs.flatMap(({ both }) => both.slice(0, NEWEST).map(({ id }) => id)))
  const liking = await findLiking(db, actor.cafeId, [...wanted])
  const readings = new Map(liking.map((one) => [one.id, likingOf(one)]))
  return pairs.map(({ first, second, both }) => {
    const held = both.slice(0, NEWEST).flatMap((one): Alone[] => {
      const found = readings.get(one.id)?.(first.trialId, second.trialId)
      return found ? [{ id: one.id, title: one.title, closedAt: one.closedAt, ...found }] : []
    })
    return {
      first,
      second,
      held: held.map(({ se: _, ...one }) => one),
      tries: both.length,
      falseClaim: 1 - LEVEL ** both.length,
      together: held.length > 1 ? together(held) : null,
    }
  })
}

type Alone = HeldPanel & { readonly se: number }
type Compare = (first: string, second: string) => Omit<Alone, 'id' | 'title' | 'closedAt'> | null

type Liking = Awaited<ReturnType<typeof findLiking>>[number]

/** The liking of one closed panel, ready to be asked about two of its trials. */
function likingOf({ attributeId, closedAt, cups: poured, servings }: Liking): Compare {
  const cups = resultCups({ cups: poured })
  const inClaim = servings.filter(({ seat }) => findSetAside(seat.setAsideAt, closedAt) !== 'before-closing')
  const given = inClaim.map((serving) => ({
    ...serving,
    scores: serving.scores.filter(({ at }) => givenBlind(at, serving.seat.barredAt)),
  }))
  const rows = scoreRows(given, cups, attributeId)
  const step = scoreStep(rows.map(({ score }) => score))
  const reading = readingOf(() => likingReading(rows, { replicated: cups.some(({ isTwice }) => isTwice) }))
  const letterOf = new Map(cups.map(({ trialId, letter }) => [trialId, letter]))
  return (first, second) => {
    const [a, b] = [letterOf.get(first), letterOf.get(second)]
    if (!reading || a === undefined || b === undefined) return null
    const rules = { level: LEVEL, margin: null, marginLevel: LEVEL, step }
    const [found] = foundClaims(reading, { plan: 'pair', pairs: [[a, b]] }, rules)
    if (!found || found.se === null || !(found.se > 0) || found.low === null || found.high === null) return null
    const { tasters, difference, se, low, high } = found
    return { tasters, difference, se, interval: [low, high] }
  }
}

function readingOf(read: () => LikingReading): LikingReading | null {
  try {
    return read()
  } catch (error) {
    if (error instanceof UnusableReadings) return null
    throw error
  }
}

function together(held: readonly Alone[]): PairMemory['together'] {
  const rows = held.map(({ id, difference, se }) => ({ study: id, difference, se }))
  const { estimate, intervalHartungKnapp, prediction } = repeats(rows, { level: LEVEL, tau: 'reml' })
  return intervalHartungKnapp && { difference: estimate, interval: intervalHartungKnapp, next: prediction }
}
