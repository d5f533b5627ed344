import 'server-only'
import { requireCafe } from '@/lib/db/cafes'
import { findBallotSeats } from '@/lib/db/paper'
import { findPanel } from '@/lib/db/panels'
import { findNameDays } from '@/lib/db/privacy'
import type { BlindAsk } from '@/lib/panel/blind'
import { LIKING_WORDS } from '@/lib/panel/liking'
import { readPanel } from '../plan/read-panel'
import { ownAsks } from '../taste/own-asks'
import { codesOfSets } from './codes-of-sets'
import type { Cautions } from '../plan/panel-cautions'
import type { Reader, World } from '../world'

/** What every ballot of a panel says. */
export interface BallotHead {
  readonly cafe: string
  readonly nameDays: number | null
  /** as the phone has it; what the house calls the panel stays in the house */
  readonly publicTitle: string
  readonly sampleMl: number | null
  readonly cautions: Cautions
  readonly questions: readonly string[]
  /** words of the scale; the first stands for 1 */
  readonly scale: readonly string[]
}

/** The ballot of one seat. */
export interface BallotSeat {
  readonly number: number
  readonly token: string
  /** in the order of tasting */
  readonly codes: readonly string[]
  /** the same, by what is answered together; none where each is by itself */
  readonly sets: readonly (readonly string[])[]
  /** how each question is asked at this seat */
  readonly asks: readonly BlindAsk[]
}

export interface Ballots extends BallotHead {
  readonly title: string
  readonly seats: readonly BallotSeat[]
}

/**
 * Ballots for seats that answer on paper: what a phone's door says and what a phone asks, and nothing that tells which cup is
 * which.
 *
 * @param free  for seats that nobody has taken as well
 * @returns     null unless the panel is open
 */
export async function readBallots(
  world: World,
  reader: Reader,
  panelId: string,
  free: boolean,
): Promise<Ballots | null> {
  const panel = await findPanel(world.db, reader.cafeId, panelId)
  if (panel?.stage !== 'open') return null
  const [plan, cafe, nameDays, seats] = await Promise.all([
    readPanel(world, reader, panelId),
    requireCafe(world.db, reader.cafeId),
    findNameDays(world.db, reader.cafeId),
    findBallotSeats(world.db, reader.cafeId, panelId, free),
  ])
  if (!plan) return null
  return {
    title: panel.title,
    cafe: cafe.name,
    nameDays,
    publicTitle: panel.publicTitle,
    sampleMl: panel.sampleMl,
    cautions: plan.cautions,
    questions: panel.attributes.map(({ name }) => name),
    scale: LIKING_WORDS,
    seats: seats.map(({ id, number, cardToken, servings }) => ({
      number,
      asks: ownAsks(id, panel.attributes),
      token: cardToken,
      codes: servings.map(({ code }) => code),
      sets: codesOfSets(servings),
    })),
  }
}
