import 'server-only'
import { findBenchNotes, isTastingTrial } from '@/lib/db/bench-notes'
import { findNames } from '@/lib/db/people'
import type { Actor, World } from '../world'

export interface BenchNote {
  readonly id: string
  /** after pouring */
  readonly minutes: number | null
  /** 0 to 100 */
  readonly sweet: number | null
  readonly strong: number | null
  readonly body: number | null
  readonly text: string | null
  readonly at: Date
  readonly by: string
}

/**
 * What the makers noted of a trial, oldest first. Apart from blind evidence: nothing else reads it.
 *
 * @returns `is-tasting` to whoever has a seat in an open panel that pours the trial: until it is closed they read none
 */
export async function readBenchNotes(
  world: World,
  actor: Actor,
  trialId: string,
): Promise<readonly BenchNote[] | 'is-tasting'> {
  if (await isTastingTrial(world.db, actor.cafeId, trialId, actor.userId)) return 'is-tasting'
  const notes = await findBenchNotes(world.db, actor.cafeId, trialId)
  const names = await findNames(
    world.db,
    notes.flatMap(({ createdById }) => (createdById === null ? [] : [createdById])),
  )
  return notes.map(({ id, minutes, sweet, strong, body, text, at, createdById }) => ({
    id,
    minutes,
    sweet,
    strong,
    body,
    text,
    at,
    by: createdById === null ? 'the house' : (names.get(createdById) ?? 'somebody'),
  }))
}
