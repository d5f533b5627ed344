import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findJugs, findOpenings, findTrayServings } from '@/lib/db/trays'
import { designOf, pouringsOf } from '@/lib/panel/kinds/kinds'
import { fillingList, servingList, type Jug, type ListName, type Tray } from '@/lib/panel/pouring-list'
import { mlToPour, portionsPerCup, sparePortions } from '@/lib/panel/portions'
import { traysOf } from '../plan/plan-of'
import { seatsAtStake } from './open-list'
import type { Actor, World } from '../world'

/** What one reads before a list opens, and what every list carries at its head. */
export interface ListHead {
  readonly title: string
  readonly seats: number
  /** of each jug */
  readonly portions: number
  readonly sampleMl: number | null
  readonly mlPerJug: number | null
  readonly spare: number
  /** cups of one tray come from one jug: whoever reads the list can tell which are the same */
  readonly pouredTwice: boolean
  /** how it is hidden what could be seen, where a plan says so */
  readonly mask: string | null
  readonly seenThrough: string | null
  /** this member has opened the other list of this panel */
  readonly openedOther: boolean
  /** seats at which this member, or whoever holds this browser, still tastes */
  readonly holds: readonly number[]
}

/** An opening shows its list this long; after that one opens it again, and that is recorded again. */
const openForMs = 12 * 60 * 60 * 1000

export async function readListHead(
  world: World,
  actor: Actor,
  panelId: string,
  list: ListName,
  browser: string | null = null,
): Promise<ListHead | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (panel?.stage !== 'open') return null
  const openings = await findOpenings(world.db, actor.cafeId, panelId)
  const { seatCount: seats, sampleMl, seenThrough } = panel
  const asks = designOf(panel)
  const portions = portionsPerCup({ seats, ...traysOf(panel) })
  return {
    title: panel.title,
    seats,
    portions,
    sampleMl,
    mlPerJug: sampleMl === null ? null : mlToPour(portions, sampleMl),
    spare: sparePortions(portions),
    pouredTwice: (pouringsOf(panel)?.mostAtSeat ?? 1) > 1,
    mask: asks?.kind === 'difference' ? asks.mask : null,
    seenThrough,
    openedOther: openings.some((one) => one.userId === actor.userId && one.list !== list),
    holds: await seatsAtStake(world, actor, panelId, browser),
  }
}

/** A list is there while its panel is open. @returns what became of the panel, null where it is not there or open */
export async function readListOver(
  world: World,
  actor: Actor,
  panelId: string,
): Promise<{ readonly title: string; readonly became: 'draft' | 'called-off' | 'closed' } | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (!panel || panel.stage === 'open') return null
  const { title, stage } = panel
  return { title, became: stage === 'draft' || stage === 'called-off' ? stage : 'closed' }
}

/** Trial → jug letter, for who opened this list and while the panel is open; null otherwise. */
export async function readFillingList(
  world: World,
  actor: Actor,
  panelId: string,
  openingId: string,
): Promise<readonly Jug[] | null> {
  if (!(await isOpenFor(world, actor, panelId, openingId, 'filling'))) return null
  const jugs = await findJugs(world.db, actor.cafeId, panelId)
  return fillingList(
    jugs.map(({ jugLetter, trial }) => ({ letter: jugLetter ?? '', trialName: trial.name, trialNumber: trial.number })),
  )
}

/** Jug letter → code by seat, for who opened this list and while the panel is open; null otherwise. */
export async function readServingList(
  world: World,
  actor: Actor,
  panelId: string,
  openingId: string,
): Promise<readonly Tray[] | null> {
  if (!(await isOpenFor(world, actor, panelId, openingId, 'serving'))) return null
  const servings = await findTrayServings(world.db, actor.cafeId, panelId)
  return servingList(
    servings.map(({ id, position, code, pouredAt, cup, seat }) => ({
      servingId: id,
      position,
      code,
      poured: pouredAt !== null,
      letter: cup.jugLetter ?? '',
      seat: seat.number,
      seatLeft: seat.leftAt !== null,
    })),
  )
}

async function isOpenFor(world: World, actor: Actor, panelId: string, openingId: string, list: ListName) {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (panel?.stage !== 'open') return false
  const openings = await findOpenings(world.db, actor.cafeId, panelId)
  const opening = openings.find((one) => one.id === openingId)
  const isMine = opening?.userId === actor.userId && opening.list === list
  return isMine && world.now().getTime() - opening.at.getTime() < openForMs
}
