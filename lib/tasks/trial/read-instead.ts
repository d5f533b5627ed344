import 'server-only'
import { findTrial, type TrialRow } from '@/lib/db/trials'
import type { Reader, World } from '../world'
import { standInsFor, type Proposal, type Proposals } from './stand-ins'

/** The nearest, and of single things a few whatever blends come before them: a busy bar weighs one thing rather than three. */
const SHOWN = { nearest: 5, single: 3 }

const isSingle = ({ parts }: Proposal) => parts.filter(({ part }) => part.kind !== 'water').length === 1

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
  const singles = proposals.filter(isSingle).slice(0, SHOWN.single)
  const shown = proposals.filter((one, place) => place < SHOWN.nearest || singles.includes(one))
  return { ...found, trial, proposals: shown, further: proposals.length - shown.length }
}
