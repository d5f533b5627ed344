import 'server-only'
import { findTrial, type TrialRow } from '@/lib/db/trials'
import type { Reader, World } from '../world'
import { standInsFor, type Proposals } from './stand-ins'

/** So many are shown: who looks further has another drink in mind. */
const SHOWN = 8

/** What may stand in for one line of a trial; `further` are not shown. */
export type Instead = Proposals & { readonly trial: TrialRow; readonly further: number }

/** @returns null where there is no such trial or line */
export async function readInstead(
  world: World,
  reader: Reader,
  trialId: string,
  lineKey: string,
): Promise<Instead | null> {
  const trial = await findTrial(world.db, reader.cafeId, trialId)
  const found = trial && (await standInsFor(world.db, reader, world.now(), trial, lineKey))
  if (!found) return null
  const { proposals } = found
  return { ...found, trial, proposals: proposals.slice(0, SHOWN), further: Math.max(0, proposals.length - SHOWN) }
}
