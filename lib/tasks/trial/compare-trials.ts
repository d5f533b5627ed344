import 'server-only'
import { findTrial, type TrialRow } from '@/lib/db/trials'
import { computeBuild } from '@/lib/drink/build'
import type { TrialBuild } from '@/lib/drink/trial'
import {
  changeSentence,
  changesBetween,
  figureRows,
  manyChangesWarning,
  type Change,
  type FigureRow,
} from '@/lib/drink/change'
import { buildAsOfItsDay } from './frozen-build'
import { partsNamedIn, readStore } from '../store/reach-store'
import type { World, Reader } from '../world'

export interface Comparison {
  readonly with: { readonly id: string; readonly number: number; readonly name: string }
  readonly sentence: string
  readonly warning: string | null
  readonly changes: readonly Change[]
  readonly figures: readonly FigureRow[]
}

/** How does one trial differ from another, whichever two? */
export async function readComparison(
  world: World,
  reader: Reader,
  beforeId: string,
  afterId: string,
): Promise<(Comparison & { readonly after: TrialRow }) | null> {
  const before = await findTrial(world.db, reader.cafeId, beforeId)
  const after = await findTrial(world.db, reader.cafeId, afterId)
  if (!before || !after) return null
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn([before, after]))
  return {
    ...compareTrials(before, buildAsOfItsDay(before, store, reader.cafe), buildAsOfItsDay(after, store, reader.cafe)),
    after,
  }
}

export function compareTrials(before: TrialRow, beforeBuild: TrialBuild, afterBuild: TrialBuild): Comparison {
  const changes = changesBetween(beforeBuild, afterBuild)
  return {
    with: { id: before.id, number: before.number, name: before.name },
    sentence: changeSentence(afterBuild.name, before.name, changes),
    warning: manyChangesWarning(changes),
    changes,
    figures: figureRows(computeBuild(beforeBuild), computeBuild(afterBuild)),
  }
}
