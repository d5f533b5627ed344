import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { theSeatBrake } from '@/lib/auth/seat-brake'
import { browserHash } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import {
  addTaster,
  claimSeat,
  findFreeSeat,
  findLikelyEarlierSeat,
  findPassedSince,
  releaseBrowser,
  type DoorPanel,
  type DoorSeat,
} from '@/lib/db/seats'
import type { TooMuch } from '@/lib/panel/who-may-taste'
import { findDoor, standAt, type Door, type JoinStand } from './read-join'
import { noteTaster } from './taster-diary'
import { tooMuchOf, type Knower } from './too-much'
import type { World } from '../world'

/** A taster at the door; the member signed in on this browser, if any, and the lists it remembers having shown. */
export type NewTaster = Knower & {
  /** the token this browser keeps from now on */
  readonly browser: string
  readonly name: string
  /** where the request comes from, as the door before the pages says; absent where nobody asks by network */
  readonly address?: string
}

export type TakeRefusal = 'not-there' | 'many-seats' | TooMuch | Exclude<JoinStand, 'form' | 'holds-this-seat'>

/**
 * Gives a taster the seat of the card, or the next free one: never one that was used or left. Sent twice by one
 * browser, it answers with the same seat. A likely repeat is flagged and gets its seat all the same. One network address is
 * given so many seats a minute by the panel’s code; whoever must wait is told how many `seconds`.
 */
export async function takeSeat(
  world: World,
  door: Door,
  taster: NewTaster,
): Promise<Result<{ readonly seat: number }, TakeRefusal>> {
  const turn = turnAtBrake(taster.address)
  try {
    return await inTransaction(world, async (tx) => {
      turn.giveBack()
      const taken = await takeAt(world, tx, turn, door, taster)
      if (!taken.ok) turn.giveBack()
      return taken
    })
  } catch (error) {
    turn.giveBack()
    throw error
  }
}

/** A turn at the brake is no row: what is begun anew, refused or broken off gives it back by itself. */
function turnAtBrake(address: string | undefined) {
  let counted: Date | null = null
  return {
    take(at: Date): number {
      const seconds = address === undefined ? 0 : theSeatBrake.take(address, at)
      counted = seconds === 0 ? at : null
      return seconds
    },
    giveBack(): void {
      if (address !== undefined && counted) theSeatBrake.giveBack(address, counted)
      counted = null
    },
  }
}

async function takeAt(
  world: World,
  tx: Tx,
  turn: ReturnType<typeof turnAtBrake>,
  door: Door,
  taster: NewTaster,
): Promise<Result<{ readonly seat: number }, TakeRefusal>> {
  const place = await findDoor(tx, door)
  if (!place) return no('not-there')
  const { panel } = place

  const { stand, seat: held } = await standAt(tx, place, taster.browser)
  if (stand === 'holds-this-seat') return ok({ seat: held ?? 0 })
  if (stand !== 'form') return no(stand)
  const known = await tooMuchOf(tx, panel, taster)
  if (known) return no(known.why)

  const at = world.now()
  const hash = browserHash(taster.browser)
  const seconds = (await isBraked(tx, door, hash, at)) ? turn.take(at) : 0
  if (seconds > 0) return no('many-seats', { seconds: String(seconds) })
  const repeatOfSeatId = await findLikelyEarlierSeat(tx, panel, hash, taster.name)
  await releaseBrowser(tx, hash)
  const seat = await claim(tx, panel, place.seat, { hash, at, repeatOfSeatId, memberId: taster.userId })
  if (!seat) return no(place.seat ? 'begun-elsewhere' : 'full')

  const where = { cafeId: panel.cafeId, panelId: panel.id, seatId: seat.id }
  await addTaster(tx, { id: world.id(), ...where, name: taster.name, at })
  await noteTaster(world, tx, {
    cafeId: panel.cafeId,
    at,
    act: 'seat-taken',
    subjectKind: 'seat',
    subjectId: seat.id,
    detail: { seat: seat.number, likelyRepeat: repeatOfSeatId !== null },
  })
  return ok({ seat: seat.number })
}

/** Held at least so long before it was passed on: somebody tasted there. */
const A_TURN_MS = 60_000

/**
 * Does a seat taken here count for its address? A seat card does not: each is a secret of its own, given out by hand. Nor does
 * a phone that is passed on after a taster's turn.
 */
async function isBraked(tx: Tx, door: Door, hash: string, at: Date): Promise<boolean> {
  if (door.kind === 'card') return false
  const since = await findPassedSince(tx, hash)
  return since === null || at.getTime() - since.getTime() < A_TURN_MS
}

/** Tries the seat of the card, or one free seat after the other until one is ours: somebody else may be quicker. */
async function claim(
  tx: Tx,
  panel: DoorPanel,
  card: DoorSeat | null,
  as: Parameters<typeof claimSeat>[2],
): Promise<DoorSeat | null> {
  if (card) return (await claimSeat(tx, card.id, as)) ? card : null
  for (;;) {
    const seat = await findFreeSeat(tx, panel)
    if (!seat || (await claimSeat(tx, seat.id, as))) return seat
  }
}
