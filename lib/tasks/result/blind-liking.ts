import 'server-only'
import { findNewestTastings, findPouredNow } from '@/lib/db/tastings'
import { readClosingAnswer } from './closing-answer'
import type { World } from '../world'

/** The panel that a trial's liking is of; two intervals compare only where it is the same. */
export interface TastingPanel {
  readonly id: string
  readonly title: string
  readonly closedAt: Date | null
  readonly isDemo: boolean
}

/** How a trial was liked blind, as its newest closed panel keeps it. */
export type BlindLiking =
  | { readonly said: 'not-tasted' }
  /** an open panel pours it: nothing is said of it until that is closed */
  | { readonly said: 'poured-now' }
  /** tasted, and no number of that panel can be shown here: its result says what there is */
  | {
      readonly said: 'no-number'
      readonly why: 'not-asked' | 'not-scored' | 'not-kept' | 'earlier-rule'
      readonly panel: TastingPanel
    }
  | {
      readonly said: 'liked'
      /** points; null: scores did not vary, or too few gave one */
      readonly mean: number
      readonly interval: readonly [number, number] | null
      readonly tasters: number
      readonly panel: TastingPanel
    }

/**
 * How was each of these trials liked, blind?
 *
 *     what the newest closed panel of each said at closing, as it keeps it: nothing is worked out again
 *
 * @returns one for every trial asked for
 */
export async function findBlindLiking(
  world: World,
  cafeId: string,
  trialIds: readonly string[],
): Promise<ReadonlyMap<string, BlindLiking>> {
  const [tastings, now] = await Promise.all([
    findNewestTastings(world.db, cafeId, trialIds),
    findPouredNow(world.db, cafeId, trialIds),
  ])
  const kept = new Map(tastings.map(({ panel }) => [panel.id, panel.closingAnswer]))
  const answers = new Map([...kept].map(([id, text]) => [id, text === null ? null : readClosingAnswer(text)]))
  const found = new Map(tastings.map(({ trialId, panel }) => [trialId, panel]))
  return new Map(
    trialIds.map((id): [string, BlindLiking] => {
      const panel = found.get(id)
      if (now.has(id)) return [id, { said: 'poured-now' }]
      if (!panel) return [id, { said: 'not-tasted' }]
      const { closingAnswer: _, kind, ...named } = panel
      if (kind !== 'liking') return [id, { said: 'no-number', why: 'not-asked', panel: named }]
      return [id, { ...likingOf(answers.get(panel.id) ?? null, id), panel: named }]
    }),
  )
}

type Kept = ReturnType<typeof readClosingAnswer>
type Read = Readonly<
  | { said: 'no-number'; why: 'not-scored' | 'not-kept' | 'earlier-rule' }
  | { said: 'liked'; mean: number; interval: readonly [number, number] | null; tasters: number }
>

function likingOf(kept: Kept | null, trialId: string): Read {
  if (!kept?.ok || kept.value.outcome !== 'answered') return { said: 'no-number', why: 'not-kept' }
  // Its intervals were of another kind than those of its result page today.
  if (kept.value.version === 1) return { said: 'no-number', why: 'earlier-rule' }
  const { cups, liking } = kept.value
  if (liking && !liking.cups) return { said: 'no-number', why: 'not-kept' }
  const letter = cups.find((cup) => cup.trialId === trialId)?.letter
  const own = liking?.cups?.find(({ cup }) => cup === letter)
  if (!own || own.estimate === null || own.n === null) return { said: 'no-number', why: 'not-scored' }
  const [low, high] = own.robust.interval ?? [null, null]
  const interval = low === null || high === null ? null : ([low, high] as const)
  return { said: 'liked', mean: own.estimate, interval, tasters: own.n }
}
