import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import { findSeenLists, setBarred, type BarredSeat } from '@/lib/db/seats'
import { listNames } from '@/lib/panel/pouring-list'
import { knowsTooMuch, type TooMuch } from '@/lib/panel/who-may-taste'
import { noteAct, type World } from '../world'

/** Whom an opening of a list can be put down to: a member, and openings that this browser remembers having shown. */
export interface Knower {
  readonly userId: string | null
  readonly openings?: readonly string[]
}

export type Known = NonNullable<ReturnType<typeof knowsTooMuch>>

export async function tooMuchOf(
  tx: Tx,
  panel: { readonly cafeId: string; readonly id: string },
  { userId, openings = [] }: Knower,
): Promise<Known | null> {
  const seen = await findSeenLists(tx, panel, userId, openings)
  return knowsTooMuch(
    seen.flatMap(({ list, at }) => {
      const known = listNames.find((name) => name === list)
      return known ? [{ list: known, at }] : []
    }),
  )
}

/** Closes a seat to scoring, with its line in the diary; one that is closed already keeps the moment. */
export async function barSeat(
  world: World,
  tx: Tx,
  seat: BarredSeat,
  { since, why }: { readonly since: Date; readonly why: TooMuch },
  userId: string,
): Promise<void> {
  if (!(await setBarred(tx, seat.id, { barredAt: since, barredWhy: why }))) return
  await noteAct(
    world,
    tx,
    { userId, cafeId: seat.cafeId },
    {
      act: 'seat-barred',
      subjectKind: 'seat',
      subjectId: seat.id,
      detail: { seat: seat.number, why },
    },
  )
}
