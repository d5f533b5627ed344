import 'server-only'
import { hashToken } from '@/lib/auth/link-token'
import { requireCafe } from '@/lib/db/cafes'
import { findReadLink } from '@/lib/db/read-links'
import { readResult, type PanelResult } from './read-result'
import { readResultGlasses, type ResultGlass } from './read-result-glasses'
import type { World } from '../world'

/** What a result says without anybody's name, seat or words in it. */
export type NamelessResult = Pick<
  PanelResult,
  | 'title'
  | 'kind'
  | 'choice'
  | 'difference'
  | 'rank'
  | 'question'
  | 'recipe'
  | 'closedAt'
  | 'isDemo'
  | 'seenThrough'
  | 'cups'
  | 'verdict'
  | 'found'
  | 'today'
  | 'margin'
  | 'claims'
  | 'primary'
  | 'liking'
  | 'why'
  | 'needed'
  | 'spread'
  | 'placeTellsCup'
  | 'beside'
  | 'asideReadings'
  | 'drops'
  | 'ticked'
>

export interface SharedResult {
  readonly cafe: { readonly name: string; readonly timeZone: string; readonly currency: string }
  readonly result: NamelessResult
  readonly glasses: readonly ResultGlass[]
}

/** What a link shows to whoever holds it. @returns null where the link was withdrawn or never was */
export async function readShared(world: World, token: string): Promise<SharedResult | null> {
  const link = await findReadLink(world.db, hashToken(token))
  if (!link) return null
  const cafe = await requireCafe(world.db, link.cafeId)
  const nobody = { userId: '', cafeId: link.cafeId, cafe }
  const [result, glasses] = await Promise.all([
    readResult(world, nobody, link.panelId),
    readResultGlasses(world, nobody, link.panelId),
  ])
  if (!result || !glasses) return null
  return {
    cafe: { name: cafe.name, timeZone: cafe.timeZone, currency: cafe.currency },
    result: nameless(result),
    glasses,
  }
}

/** Field by field, so that what a result learns to say later is not shown before somebody has thought about names. */
function nameless(result: PanelResult): NamelessResult {
  const {
    title,
    kind,
    choice,
    rank,
    difference,
    question,
    recipe,
    closedAt,
    isDemo,
    seenThrough,
    cups,
    verdict,
    found,
    today,
    margin,
  } = result
  const { claims, primary, liking, why, needed, spread, placeTellsCup, beside, asideReadings, drops, ticked } = result
  return {
    choice: choice && { ...choice, later: [] },
    rank: rank && { ...rank, later: [] },
    difference: difference && { ...difference, later: [], incomplete: [] },
    ...{ title, kind, question, recipe, closedAt, isDemo, seenThrough, cups, verdict, found, today, margin },
    ...{ claims, primary, liking, why, needed, spread, placeTellsCup, beside, asideReadings, drops, ticked },
  }
}
