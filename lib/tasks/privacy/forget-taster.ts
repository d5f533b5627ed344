import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { browserHash } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import type { ForgottenMarks } from '@/lib/db/forgotten-marks'
import { findKeptSeat } from '@/lib/db/privacy'
import { findHeldSeat } from '@/lib/db/seats'
import { noteTaster } from '../taste/taster-diary'
import { noteAct, type Actor, type World } from '../world'
import { forgetTasters } from './forget'

/** Somebody who runs panels takes out the name of a taster who asked for it, and what they wrote if they asked for that. */
export async function forgetTaster(
  world: World,
  marks: ForgottenMarks,
  actor: Actor,
  of: { readonly panelId: string; readonly seat: number; readonly words: boolean },
): Promise<Result<null, 'no-taster'>> {
  return inTransaction(world, async (tx) => {
    const seat = await findKeptSeat(tx, { cafeId: actor.cafeId, panelId: of.panelId, number: of.seat })
    if (!seat?.taster) return no('no-taster')
    await forgetTasters(world, tx, marks, { tasterIds: [seat.taster.id], words: of.words })
    await noteAct(world, tx, actor, noted(seat, of.words))
    return ok(null)
  })
}

/** How a taster shows whose seat it is: by the card, or by the phone that holds it. */
export type OwnSeat =
  { readonly by: 'card'; readonly cardToken: string } | { readonly by: 'phone'; readonly browser: string }

export async function findOwnSeat(tx: Tx, own: OwnSeat) {
  if (own.by === 'card') return findKeptSeat(tx, { cardToken: own.cardToken })
  const held = await findHeldSeat(tx, browserHash(own.browser))
  return held && findKeptSeat(tx, { id: held.id })
}

type KeptSeat = NonNullable<Awaited<ReturnType<typeof findKeptSeat>>>

/**
 * May whoever asks read the answers of a seat, and take out what was written? While the panel is open only by the phone that took
 * the seat: a card can be photographed, and a seat that went on on another phone may be in other hands.
 *
 * @param own  null for the house, which reads no score before closing
 */
export function mayReadAnswers({ panel, browserSince, takenAt }: KeptSeat, own: OwnSeat | null): boolean {
  if (panel.stage !== 'open') return true
  return own?.by === 'phone' && browserSince?.getTime() === takenAt?.getTime()
}

/** A taster takes out their own name, and what they wrote where it is theirs beyond doubt. */
export async function forgetMe(
  world: World,
  marks: ForgottenMarks,
  own: OwnSeat,
  words: boolean,
): Promise<Result<null, 'no-taster'>> {
  return inTransaction(world, async (tx) => {
    const seat = await findOwnSeat(tx, own)
    if (!seat?.taster) return no('no-taster')
    const wordsToo = words && mayReadAnswers(seat, own)
    await forgetTasters(world, tx, marks, { tasterIds: [seat.taster.id], words: wordsToo })
    await noteTaster(world, tx, { cafeId: seat.cafeId, at: world.now(), ...noted(seat, wordsToo) })
    return ok(null)
  })
}

const noted = (seat: { readonly id: string; readonly number: number }, words: boolean) => ({
  act: 'taster-forgotten',
  subjectKind: 'seat',
  subjectId: seat.id,
  detail: { seat: seat.number, comments: words },
})
