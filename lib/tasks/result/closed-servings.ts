import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findUnblindedServings, type UnblindedServing } from '@/lib/db/results'
import { givenBlind } from '@/lib/panel/who-may-taste'

/** A serving of a closed panel: the scores that count, and those set apart because their taster knew too much by then. */
export type ClosedServing = UnblindedServing & { readonly apart: UnblindedServing['scores'] }

/** Every serving of a closed panel, as whatever counts, shows or exports it has to read them. */
export async function findClosedServings(db: Db | Tx, cafeId: string, panelId: string): Promise<ClosedServing[]> {
  const servings = await findUnblindedServings(db, cafeId, panelId)
  return servings.map((serving) => {
    const { barredAt } = serving.seat
    return {
      ...serving,
      scores: serving.scores.filter(({ at }) => givenBlind(at, barredAt)),
      apart: serving.scores.filter(({ at }) => !givenBlind(at, barredAt)),
    }
  })
}
