import 'server-only'
import { makingCautions } from '@/lib/drink/caution'
import { warmthAsked, withWarmth } from '@/lib/drink/jug-warmth'
import type { BatchToMake, Lacking } from '@/lib/drink/make-many'
import type { TrialBuild } from '@/lib/drink/trial'
import { findTrialsOfPanel } from '@/lib/db/trials'
import { readWarmthForm, type WarmthField } from '@/lib/forms/warmth-form'
import type { Jug } from '@/lib/panel/pouring-list'
import { pastBatches, type PastBatch } from '../store/past-batches'
import { findScales } from '../store/house-scales'
import { refOf } from '../store/store-part'
import { partsNamedIn, readStore } from '../store/reach-store'
import { buildAsOfItsDay } from '../trial/frozen-build'
import { pouredToday, todaysBatches, type TodaysBatch } from '../trial/todays-batches'
import { fromFormulas, type MadeFirst } from '../trial/from-formula'
import { partsToMake, type PartsToMake } from '../trial/make-parts'
import type { Reader, World } from '../world'
import { readFillingList } from './read-pouring-list'

/** One jug with what goes in; null where the plan names no amount. */
export type JugFill = Jug & {
  readonly fill: PartsToMake | Lacking | null
  /** of each line that names a preparation: the batch that goes into this jug */
  readonly todays: readonly TodaysBatch[]
}

/** The filling list with grams: for who opened it, and for nobody who serves. */
export interface FillingSheet {
  readonly jugs: readonly JugFill[]
  /** temperatures that no sheet says and a jug poured off its ice needs */
  readonly warmth: readonly WarmthField[]
  /** of what the sheets name by preparation: none is in date */
  readonly first: readonly MadeFirst[]
  /** batches for all jugs together, what goes into another before it */
  readonly batches: readonly BatchToMake[]
  readonly cautions: readonly string[]
  readonly past: readonly PastBatch[]
}

/**
 * What goes into each jug of an open panel, so that strained off its ice it holds the millilitres that the panel needs.
 *
 * @param mlPerJug  as the plan comes to, spare counted; null where it names no amount
 * @param query     temperatures typed on the page, by field
 * @returns         null unless this member opened the list, as `readFillingList`
 */
export async function readJugFills(
  world: World,
  reader: Reader,
  panelId: string,
  openingId: string,
  mlPerJug: number | null,
  query: Readonly<Record<string, string | undefined>>,
): Promise<FillingSheet | null> {
  const jugs = await readFillingList(world, reader, panelId, openingId)
  if (!jugs) return null
  const trials = await findTrialsOfPanel(world.db, reader.cafeId, panelId)
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(trials))
  const scales = await findScales(world.db, reader.cafeId)
  const todays = new Map(trials.map((trial) => [trial.number, todaysBatches(trial, store)]))
  const builds = new Map<number, TrialBuild>()
  const first = new Map<string, MadeFirst>()
  for (const trial of trials) {
    const named = todays.get(trial.number) ?? []
    const poured = pouredToday(buildAsOfItsDay(trial, store, reader.cafe), named, store)
    const started = await fromFormulas(world.db, reader.cafeId, world.now(), poured, named)
    builds.set(trial.number, started.build)
    for (const one of started.first) first.set(`${one.name} ${one.by}`, one)
  }
  const inOrder = jugs.flatMap(({ trialNumber }) => builds.get(trialNumber) ?? [])
  const { fields, celsius } = readWarmthForm(mlPerJug === null ? [] : warmthAsked(inOrder), query)
  const filled = jugs.map((jug): JugFill => {
    const build = builds.get(jug.trialNumber)
    const own = { ...jug, todays: todays.get(jug.trialNumber) ?? [] }
    if (!build || mlPerJug === null) return { ...own, fill: null }
    const asked = { count: 'strained', amount: mlPerJug, spare: 0 } as const
    return { ...own, fill: partsToMake(withWarmth(build, celsius), asked, { scales }) }
  })
  return {
    jugs: filled,
    warmth: fields,
    first: [...first.values()],
    batches: together(filled.flatMap(({ fill }) => (fill?.known ? fill.preparations : []))),
    cautions: [...new Set(inOrder.flatMap(makingCautions))],
    past: pastBatches(
      store,
      trials.flatMap(({ lines }) => lines.map(refOf)),
      world.now(),
    ),
  }
}

/** The same batch for several jugs is made once; two batches of one name that were made otherwise stay two. */
function together(batches: readonly BatchToMake[]): readonly BatchToMake[] {
  const made = new Map<string, BatchToMake>()
  for (const batch of batches) {
    const shares = batch.inputs.map(({ name, grams }) => `${name} ${(grams / batch.grams).toFixed(6)}`)
    const key = JSON.stringify([batch.name, shares])
    const before = made.get(key)
    const inputs = batch.inputs.map((input, place) => ({
      ...input,
      grams: input.grams + (before?.inputs[place]?.grams ?? 0),
    }))
    made.set(key, { ...batch, grams: batch.grams + (before?.grams ?? 0), inputs })
  }
  return [...made.values()]
}
