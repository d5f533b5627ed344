import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { browserHash } from '@/lib/auth/seat-token'
import {
  findFreeSeat,
  findHeldSeat,
  findPanelByJoinToken,
  findSeatByCard,
  unfinishedServings,
  type DoorPanel,
  type DoorSeat,
} from '@/lib/db/seats'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findTrialsOfPanel } from '@/lib/db/trials'
import { findSetKind, pouringsOf, type PanelKind } from '@/lib/panel/kinds/kinds'
import { cupsOnTray } from '@/lib/panel/portions'
import { panelCautions, type Cautions } from '../plan/panel-cautions'
import { readGlasses } from '../trial/panel-glasses'
import type { World } from '../world'

/** How a taster came: by the panel's code on the wall, or by the card of one seat. */
export type Door = { readonly kind: 'join' | 'card'; readonly token: string }

/** What the door shows. `holds-seat`: this browser has a seat that is still running. */
export type JoinStand =
  | 'form'
  | 'not-open'
  | 'closed'
  | 'full'
  | 'seat-left'
  | 'on-paper'
  | 'set-aside'
  | 'begun-elsewhere'
  | 'holds-this-seat'
  | 'holds-seat'

export type JoinView = {
  readonly stand: JoinStand
  readonly title: string
  readonly cafe: string
  readonly cups: number
  /** what is asked about them */
  readonly kind: PanelKind
  readonly sampleMl: number | null
  /** the seat of the card, or the one this browser holds */
  readonly seat: number | null
  readonly cautions: Cautions
  /** days until a name goes by itself; 0: when asked; null: the café has not chosen */
  readonly nameDays: number | null
}

export type DoorPlace = { readonly panel: DoorPanel; readonly seat: DoorSeat | null }

export async function findDoor(db: Db | Tx, door: Door): Promise<DoorPlace | null> {
  if (door.kind === 'card') return findSeatByCard(db, door.token)
  const panel = await findPanelByJoinToken(db, door.token)
  return panel ? { panel, seat: null } : null
}

/** Where this browser stands at this door. Asked again inside the act that takes a seat, because doors close. */
export async function standAt(
  db: Db | Tx,
  place: DoorPlace,
  browser: string | null,
): Promise<{ readonly stand: JoinStand; readonly seat: number | null }> {
  const { panel, seat } = place
  const number = seat?.number ?? null
  if (panel.stage === 'draft') return { stand: 'not-open', seat: number }

  const held = browser === null ? null : await findHeldSeat(db, browserHash(browser))
  if (held && seat && held.id === seat.id) return { stand: 'holds-this-seat', seat: number }
  if (held && !seat && held.panelId === panel.id) return { stand: 'holds-this-seat', seat: held.number }
  if (panel.stage !== 'open') return { stand: 'closed', seat: number }
  if (held && (held.panelId === panel.id || (await isRunning(db, held))))
    return { stand: 'holds-seat', seat: held.number }

  if (seat) {
    if (seat.leftAt) return { stand: 'seat-left', seat: number }
    if (seat.setAsideAt) return { stand: 'set-aside', seat: number }
    if (seat.onPaper) return { stand: 'on-paper', seat: number }
    return { stand: seat.takenAt ? 'begun-elsewhere' : 'form', seat: number }
  }
  return { stand: (await findFreeSeat(db, panel)) ? 'form' : 'full', seat: null }
}

async function isRunning(db: Db | Tx, held: { id: string; panel: { stage: string } }): Promise<boolean> {
  return held.panel.stage === 'open' && (await unfinishedServings(db, held.id)) > 0
}

/** What stands behind a panel's code or a seat card, for this browser. */
export async function readJoin(
  world: World,
  door: Door,
  browser: string | null,
): Promise<Result<JoinView, 'not-there'>> {
  const place = await findDoor(world.db, door)
  if (!place) return no('not-there')
  const { panel } = place
  const { allergenList } = panel.cafe
  const trials = await findTrialsOfPanel(world.db, panel.cafeId, panel.id)
  const glasses = await readGlasses(world.db, panel.cafeId, allergenList, trials, world.now())

  const { cupCount, cupsPerTaster } = panel
  const cups = cupsOnTray({ cups: cupCount, cupsPerTaster, pourings: pouringsOf(panel) })

  return ok({
    ...(await standAt(world.db, place, browser)),
    title: panel.publicTitle,
    cafe: panel.cafe.name,
    cups,
    kind: findSetKind(panel.kind) ?? 'liking',
    sampleMl: panel.sampleMl,
    nameDays: panel.cafe.nameDays,
    cautions: panelCautions(
      [...glasses.values()].flatMap(({ builds }) => builds),
      allergenList,
      { cups, portionMl: panel.sampleMl },
    ),
  })
}
