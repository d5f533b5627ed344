import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import type { ForgottenMarks } from '@/lib/db/forgotten-marks'
import { loosenForgottenSeats, takeNamesOut, takeWordsOut } from '@/lib/db/privacy'
import type { World } from '../world'

/** What a taster may ask to be taken out. The scores stay: nobody can tell any more whose they were. */
export interface ToForget {
  readonly tasterIds: readonly string[]
  /** comments as well */
  readonly words: boolean
}

/**
 * Takes names out, inside the act's own transaction. The marks are written first: should the transaction fail, the next tidying
 * repeats what was asked for; the other way round a copy that is restored later would bring the name back.
 */
export async function forgetTasters(world: World, tx: Tx, marks: ForgottenMarks, wanted: ToForget): Promise<void> {
  const { tasterIds, words } = wanted
  marks.add(tasterIds.map((id) => ({ of: 'taster', id, words })))
  await takeNamesOut(tx, tasterIds, world.now())
  if (words) await takeWordsOut(tx, tasterIds)
  await loosenForgottenSeats(tx)
}
