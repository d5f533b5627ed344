import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findUnblindedServings, type UnblindedServing } from '@/lib/db/results'
import { findSetAside, type SetAside } from '@/lib/panel/set-aside'
import { givenBlind } from '@/lib/panel/who-may-taste'

type Set = NonNullable<UnblindedServing['set']>

/**
 * A serving of a closed panel: the scores that were given blind, those set apart because their taster knew too much by then,
 * and whether the house has set its seat aside.
 */
export type ClosedServing = Omit<UnblindedServing, 'set'> & {
  readonly set: (Set & { readonly apart: Set['answers'] }) | null
  readonly apart: UnblindedServing['scores']
  readonly aside: SetAside | null
}

/** Every serving of a closed panel, as whatever counts, shows or exports it has to read them. */
export async function findClosedServings(db: Db | Tx, cafeId: string, panelId: string): Promise<ClosedServing[]> {
  const servings = await findUnblindedServings(db, cafeId, panelId)
  return servings.map((serving) => {
    const { barredAt, setAsideAt, panel } = serving.seat
    return {
      ...serving,
      scores: serving.scores.filter(({ at }) => givenBlind(at, barredAt)),
      set: serving.set && {
        ...serving.set,
        answers: serving.set.answers.filter(({ at }) => givenBlind(at, barredAt)),
        apart: serving.set.answers.filter(({ at }) => !givenBlind(at, barredAt)),
      },
      apart: serving.scores.filter(({ at }) => !givenBlind(at, barredAt)),
      aside: findSetAside(setAsideAt, panel.closedAt),
    }
  })
}

/** What the panel's claims rest on: without seats that were set aside before anybody could read a score. */
export function inHeadline(servings: readonly ClosedServing[]): ClosedServing[] {
  return servings.filter(({ aside }) => aside !== 'before-closing')
}
