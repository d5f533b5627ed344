import 'server-only'
import { demand } from '@/lib/base/demand'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { setSeatCount } from '@/lib/db/panels'
import { findDealtOrders } from '@/lib/db/trays'
import { designOf } from '@/lib/panel/kinds/kinds'
import { planLimits } from '@/lib/panel/plan'
import { dealSeats } from './deal-seats'
import { newTrays } from './new-trays'
import { isStale, seatsMark, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'

/**
 * Adds seats to an open panel; their orders go on from those already dealt, so that all together stay balanced.
 *
 * @param opened  how many seats stood there when the number was typed: sent twice, it is asked about, not done twice
 */
export async function addSeats(
  world: World,
  actor: Actor,
  panelId: string,
  howMany: number,
  opened: OpenedWith | null = null,
): Promise<Result<{ readonly seats: number }, 'not-open' | 'too-many-seats' | 'seats-since'>> {
  return inTransaction(world, async (tx) => {
    const dealt = await findDealtOrders(tx, actor.cafeId, panelId)
    if (!dealt) return no('not-open')
    if (isStale(opened, seatsMark(dealt.seats.length)))
      return no('seats-since', { seats: String(dealt.seats.length), opened: seatsMark(dealt.seats.length) })
    const seats = dealt.seats.length + howMany
    if (seats > planLimits.seats.most) return no('too-many-seats', { most: String(planLimits.seats.most) })
    if (!(await setSeatCount(tx, actor.cafeId, panelId, seats))) return no('not-open')

    const key = new Map(dealt.cups.map((cup) => [numberOf(cup), cup.id]))
    const existing = dealt.seats.map((seat) => seat.servings.map((serving) => numberOf(serving.cup)))
    const first = dealt.cups.find(({ trialId }) => trialId === dealt.primaryTrialAId)
    demand(dealt.orderSeed !== null, `an open panel has a seed, ${panelId} has none`)
    const trays = newTrays(designOf(dealt), existing, howMany, {
      ...designPlan(dealt.cups),
      ...(dealt.cupsPerTaster === null ? {} : { perTaster: dealt.cupsPerTaster }),
      first: first ? numberOf(first) : null,
      seed: dealt.orderSeed,
    })
    await dealSeats(
      world,
      tx,
      { cafeId: actor.cafeId, id: panelId },
      {
        key,
        trays,
        firstNumber: Math.max(0, ...dealt.seats.map((seat) => seat.number)) + 1,
        takenCodes: dealt.seats.flatMap((seat) => seat.servings.map((serving) => serving.code)),
        addedAt: world.now(),
      },
    )
    await noteAct(world, tx, actor, {
      act: 'seats-added',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { howMany, seats },
    })
    return ok({ seats })
  })
}

type DealtCup = { readonly trialId: string; readonly isDuplicate: boolean; readonly design: number | null }

function numberOf({ design }: { readonly design: number | null }): number {
  demand(design !== null, 'a cup of an open panel has its number in the design, got null')
  return design
}

/** The design as it was at opening: the copy is counted apart. */
function designPlan(cups: readonly DealtCup[]): { readonly cups: number; readonly duplicate?: number } {
  const copy = cups.find((cup) => cup.isDuplicate)
  const copied = copy && cups.find((cup) => !cup.isDuplicate && cup.trialId === copy.trialId)
  return copied ? { cups: cups.length - 1, duplicate: numberOf(copied) } : { cups: cups.length }
}
