import 'server-only'
import { demand } from '@/lib/base/demand'
import type { Tx } from '@/lib/db/engine/client'
import { addSeatsAndServings, type NewServing } from '@/lib/db/trays'
import { dealSeatCodes } from '@/lib/panel/code'
import type { World } from '../world'

/** Which design number stands for which cup: the key of the panel. It goes into the database and nowhere else. */
export type DesignKey = ReadonlyMap<number, string>

/** Seats with a card each, and on each tray the cups of that seat's order, every serving under a code of its own. */
export async function dealSeats(
  world: World,
  tx: Tx,
  panel: { readonly cafeId: string; readonly id: string },
  deal: {
    readonly key: DesignKey
    readonly orders: readonly (readonly number[])[]
    readonly firstNumber: number
    readonly takenCodes: readonly string[]
    /** null for the seats dealt at opening */
    readonly addedAt: Date | null
    /** what stands on a tray is answered together: one set of all its servings */
    readonly inSets: boolean
  },
): Promise<void> {
  const cupsPerSeat = deal.orders[0]?.length ?? 0
  const codes = dealSeatCodes(deal.orders.length, cupsPerSeat, world, deal.takenCodes)
  const seats = deal.orders.map((_, at) => ({
    id: world.id(),
    number: deal.firstNumber + at,
    cardToken: world.token(),
    addedAt: deal.addedAt,
    createdAt: world.now(),
  }))
  const sets = deal.inSets ? seats.map((seat) => ({ id: world.id(), seatId: seat.id, number: 1 })) : []
  const servings = deal.orders.flatMap((order, at) =>
    order.map((design, place): NewServing => {
      const [seatId, cupId, code] = [seats[at]?.id, deal.key.get(design), codes[at]?.[place]]
      demand(
        seatId !== undefined && cupId !== undefined && code !== undefined,
        `an order names a cup or a code that was not dealt, at row ${at}, place ${place}`,
      )
      return { id: world.id(), seatId, cupId, setId: sets[at]?.id ?? null, position: place + 1, code }
    }),
  )
  await addSeatsAndServings(tx, panel.cafeId, panel.id, { seats, sets, servings })
}
