import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import { computeBuild } from '@/lib/drink/build'
import type { Figure } from '@/lib/drink/figure'
import { glassLayers, type GlassLayers } from '@/lib/drink/layers'
import { findMethod, methods } from '@/lib/drink/method'
import type { TrialBuild } from '@/lib/drink/trial'
import { findBlindLiking, type BlindLiking } from '../result/blind-liking'
import { frozenWith } from '../trial/frozen-build'
import type { World } from '../world'

/** A trial as it stands in a cell. */
export interface GridTrial {
  readonly id: string
  readonly number: number
  readonly name: string
  readonly isHouse: boolean
  /** the day whose prices the cost is of; null: of today, for it is a draft, or its sheet of that day is lost */
  readonly pricesOf: Date | null
  readonly cost: Figure
  readonly glass: GlassLayers
  readonly liking: BlindLiking
}

/** The trials of one method at one cost level. */
export interface GridCell {
  /** the house recipe, or else the newest */
  readonly lead: GridTrial
  /** the others, newest first */
  readonly others: readonly { readonly id: string; readonly number: number; readonly name: string }[]
}

/** Methods down, cost levels across. */
export interface MethodGrid {
  /** id null: trials of which nobody said at which level they were made; there only where such a trial is */
  readonly levels: readonly { readonly id: string | null; readonly name: string }[]
  readonly rows: readonly { readonly method: string; readonly cells: readonly (GridCell | null)[] }[]
  /** ml that every glass is drawn to */
  readonly reach: number
}

interface Laid {
  readonly trials: readonly TrialRow[]
  readonly builds: ReadonlyMap<string, TrialBuild>
  readonly levels: readonly { readonly id: string; readonly name: string }[]
  readonly houseTrialId: string | null
}

/** Lays a recipe's trials out by method and cost level. Figures and liking are read of those alone that stand in front. */
export async function methodGrid(world: World, cafeId: string, laid: Laid): Promise<MethodGrid> {
  const shown = laid.trials.filter(({ archivedAt, id }) => archivedAt === null || id === laid.houseTrialId)
  const levels = [
    ...laid.levels.map(({ id, name }) => ({ id, name })),
    ...(shown.some(({ costLevelId }) => costLevelId === null) ? [{ id: null, name: 'no level named' }] : []),
  ]
  const placed = methodsOf(shown).map((method) => ({
    method,
    cells: levels.map(({ id }) => inOrder(shown, method, id, laid.houseTrialId)),
  }))
  const leads = placed.flatMap(({ cells }) => cells.flatMap(([lead]) => lead ?? []))
  const liking = await findBlindLiking(
    world,
    cafeId,
    leads.map(({ id }) => id),
  )
  const glasses = new Map(
    leads.flatMap((trial) => {
      const build = laid.builds.get(trial.id)
      return build ? [[trial.id, glassOf(trial, build)] as const] : []
    }),
  )
  const cellOf = ([lead, ...others]: readonly TrialRow[]): GridCell | null => {
    const glass = lead && glasses.get(lead.id)
    if (!glass) return null
    const { id, number, name } = lead
    const isHouse = id === laid.houseTrialId
    const liked = liking.get(id) ?? { said: 'not-tasted' as const }
    return { lead: { id, number, name, isHouse, ...glass, liking: liked }, others: others.map(nameOf) }
  }
  return {
    levels,
    rows: placed.map(({ method, cells }) => ({
      method: findMethod(method)?.words ?? method,
      cells: cells.map(cellOf),
    })),
    reach: Math.max(
      1,
      ...[...glasses.values()].map(({ glass }) => Math.max(glass.brim ?? 0, glass.fill ?? 0, glass.top)),
    ),
  }
}

const nameOf = ({ id, number, name }: TrialRow) => ({ id, number, name })

/** In the order in which methods are listed everywhere; one that is no longer known stands last. */
function methodsOf(trials: readonly TrialRow[]): string[] {
  const used = new Set(trials.map(({ method }) => method))
  const known = methods.filter(({ id }) => used.delete(id)).map(({ id }) => id)
  return [...known, ...used]
}

function inOrder(
  trials: readonly TrialRow[],
  method: string,
  levelId: string | null,
  house: string | null,
): TrialRow[] {
  return trials
    .filter((trial) => trial.method === method && trial.costLevelId === levelId)
    .toSorted((a, b) => Number(b.id === house) - Number(a.id === house) || b.number - a.number)
}

/** Of the day it was frozen; of today for a draft: as on the trial's own page. */
function glassOf(trial: TrialRow, build: TrialBuild): Pick<GridTrial, 'cost' | 'glass' | 'pricesOf'> {
  const kept = frozenWith(trial)
  const figures = { ...computeBuild(build), ...kept?.figures }
  return { pricesOf: kept && trial.frozenAt, cost: figures.cost.perGlass, glass: glassLayers(build, figures) }
}
