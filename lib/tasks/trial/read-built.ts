import 'server-only'
import { mean, sampleDeviation } from '@/lib/stats/describe'
import { scaleSheet } from '@/lib/drink/scale'
import { findNames } from '@/lib/db/people'
import { findTrial, findWeighings } from '@/lib/db/trials'
import { partsNamedIn, readStore } from '../store/reach-store'
import type { Reader, World } from '../world'
import { findScales } from '../store/house-scales'
import { forToday } from './for-today'
import { buildAsOfItsDay } from './frozen-build'
import { isWithin, type KeptBrew, type KeptWeight } from './judge-weighing'

/** One weight beside what was asked for: grams of all glasses together, per cent of what was asked. Null: nobody can say. */
export interface BuiltPart {
  readonly name: string
  readonly grams: number
  readonly wanted: number | null
  readonly off: number | null
  readonly offPercent: number | null
  readonly within: boolean | null
}

/** One building of a trial. */
export interface Built {
  readonly id: string
  readonly at: Date
  readonly by: string
  readonly glasses: number
  readonly within: boolean | null
  readonly parts: readonly BuiltPart[]
  readonly brew: readonly (BuiltPart | null)[]
  readonly brewed: readonly KeptBrew[]
}

/** How one line came out, over all buildings that weighed what the sheet asks for today. Grams of one glass. */
export interface LineRepeat {
  readonly name: string
  readonly wanted: number | null
  readonly times: number
  /** null: never weighed */
  readonly mean: number | null
  /** sample standard deviation; null below two */
  readonly deviation: number | null
  readonly off: number | null
  readonly offPercent: number | null
}

export interface BuiltSheet {
  readonly trial: { readonly id: string; readonly number: number; readonly name: string; readonly isFrozen: boolean }
  /** the newest first */
  readonly built: readonly Built[]
  readonly lines: readonly LineRepeat[]
  /** there are more buildings than are read */
  readonly isCut: boolean
}

/** Buildings that one page reads. */
const MOST = 300

/** Who built a trial beside the scale, when and how near; and how well each line repeats. Nobody is counted or ranked. */
export async function readBuilt(world: World, reader: Reader, trialId: string): Promise<BuiltSheet | null> {
  const trial = await findTrial(world.db, reader.cafeId, trialId)
  if (!trial) return null
  const rows = await findWeighings(world.db, reader.cafeId, trialId, MOST + 1)
  const [names, store, scales] = await Promise.all([
    findNames(
      world.db,
      rows.flatMap(({ byId }) => (byId === null ? [] : [byId])),
    ),
    readStore(world.db, reader.cafeId, world.now(), partsNamedIn([trial])),
    findScales(world.db, reader.cafeId),
  ])
  const build = buildAsOfItsDay(trial, store, reader.cafe)
  const today = scaleSheet(build, 1, forToday(trial, store, scales)).steps
  const built = rows.slice(0, MOST).map((row): Built & { readonly weights: readonly KeptWeight[] } => {
    const weights = JSON.parse(row.weights) as KeptWeight[]
    const brewed = row.brew === null ? [] : (JSON.parse(row.brew) as KeptBrew[])
    const { id, at, glasses, within } = row
    const by = row.byId === null ? 'the house' : (names.get(row.byId) ?? 'somebody')
    return {
      id,
      at,
      by,
      glasses,
      within,
      weights,
      brewed,
      parts: weights.map((one) => partOf(one, one.grams, today[one.position - 1]?.name)),
      brew: brewed.map((one) => (one.dose === null ? null : partOf(one, one.dose, undefined))),
    }
  })
  return {
    trial: { id: trial.id, number: trial.number, name: trial.name, isFrozen: trial.frozenAt !== null },
    built,
    lines: today.map((step, place) => {
      const grams = built.flatMap(({ weights, glasses }) =>
        weights.filter((one) => isOf(one, place, step, glasses)).map((one) => one.grams / glasses),
      )
      return repeatOf(step.name, step.add, grams)
    }),
    isCut: rows.length > MOST,
  }
}

/** Was it this line that was weighed, for as much as it asks today? Of what was kept before names were, nobody can say. */
export function isOf(
  one: KeptWeight,
  place: number,
  step: { readonly name: string; readonly add: number | null },
  glasses: number,
): boolean {
  const wanted = one.wanted ?? null
  const same =
    wanted === null || step.add === null ? wanted === step.add : Math.abs(wanted / glasses - step.add) < 0.001
  return one.position === place + 1 && one.name === step.name && same
}

function partOf(one: KeptWeight | KeptBrew, grams: number, otherwise: string | undefined): BuiltPart {
  const wanted = one.wanted ?? null
  const off = wanted === null ? null : grams - wanted
  return {
    name: one.name ?? otherwise ?? `step ${one.position}`,
    grams,
    wanted,
    off,
    offPercent: off === null || wanted === null || wanted <= 0 ? null : (100 * off) / wanted,
    within: isWithin(one, grams),
  }
}

/**
 * How well does a line repeat?
 *
 *     mean and sample standard deviation of the grams of one glass;  off = mean − wanted
 *
 * @param grams  of one glass each; several built together count once, divided by how many they were
 *
 * Source   lib/stats/describe
 * Checked  test/integration/house/who-built-it.test.ts, against R
 */
export function repeatOf(name: string, wanted: number | null, grams: readonly number[]): LineRepeat {
  const middle = grams.length === 0 ? null : mean(grams)
  const off = middle === null || wanted === null ? null : middle - wanted
  return {
    name,
    wanted,
    times: grams.length,
    mean: middle,
    deviation: grams.length < 2 ? null : sampleDeviation(grams),
    off,
    offPercent: off === null || wanted === null || wanted <= 0 ? null : (100 * off) / wanted,
  }
}
