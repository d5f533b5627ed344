import 'server-only'
import { demand } from '@/lib/base/demand'
import type { Tx } from '@/lib/db/engine/client'
import { addSeatsAndServings, type NewServing } from '@/lib/db/trays'
import { dealSeatCodes } from '@/lib/panel/code'
import type { NewTrays } from './new-trays'
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
    readonly trays: NewTrays
    readonly firstNumber: number
    readonly takenCodes: readonly string[]
    /** null for the seats dealt at opening */
    readonly addedAt: Date | null
  },
): Promise<void> {
  const { orders, perSet } = deal.trays
  const cupsPerSeat = orders[0]?.length ?? 0
  const codes = dealSeatCodes(orders.length, cupsPerSeat, world, deal.takenCodes)
  const seats = orders.map((_, at) => ({
    id: world.id(),
    number: deal.firstNumber + at,
    cardToken: world.token(),
    addedAt: deal.addedAt,
    createdAt: world.now(),
  }))
  const setsEach = perSet === null ? 0 : cupsPerSeat / perSet
  const sets = seats.map((seat) =>
    Array.from({ length: setsEach }, (_, at) => ({ id: world.id(), seatId: seat.id, number: at + 1 })),
  )
  const servings = orders.flatMap((order, at) =>
    order.map((design, place): NewServing => {
      const [seatId, cupId, code] = [seats[at]?.id, deal.key.get(design), codes[at]?.[place]]
      demand(
        seatId !== undefined && cupId !== undefined && code !== undefined,
        `an order names a cup or a code that was not dealt, at row ${at}, place ${place}`,
      )
      const setId = perSet === null ? null : (sets[at]?.[Math.floor(place / perSet)]?.id ?? null)
      const pouring = order.slice(0, place + 1).filter((one) => one === design).length
      return { id: world.id(), seatId, cupId, setId, position: place + 1, pouring, code }
    }),
  )
  await addSeatsAndServings(tx, panel.cafeId, panel.id, { seats, sets: sets.flat(), servings })
}
