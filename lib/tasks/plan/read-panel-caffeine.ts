import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findTrialsOfPanel, type TrialRow } from '@/lib/db/trials'
import { computeBuild } from '@/lib/drink/build'
import { CAFFEINE_GUIDES } from '@/lib/drink/caffeine'
import { pouringsOf } from '@/lib/panel/kinds/kinds'
import type { Pourings } from '@/lib/panel/portions'
import { partsNamedIn, readStore } from '../store/reach-store'
import { trialBuild } from '../trial/trial-build'
import type { Actor, World, CafeMoney } from '../world'

/** mg that one taster drinks over all cups of a panel, and the dose that raises no concern for a healthy adult. */
export type PanelCaffeine =
  | { readonly known: true; readonly low: number; readonly high: number; readonly singleDose: number }
  | {
      readonly known: false
      readonly missing: readonly string[]
      /** of the cups and parts that state it; null where none does, or where nobody said how much is poured */
      readonly atLeast: { readonly low: number; readonly high: number; readonly singleDose: number } | null
    }

/**
 * Adds up the caffeine of one portion of every cup. The high end takes the drink as it is before any ice has melted into
 * it, the low end with all the ice counted as liquid, so that neither flatters. @returns null when there is no such panel
 */
export async function readPanelCaffeine(
  world: World,
  reader: Actor & { readonly cafe: CafeMoney },
  panelId: string,
): Promise<PanelCaffeine | null> {
  const panel = await findPanel(world.db, reader.cafeId, panelId)
  if (!panel) return null
  if (panel.sampleMl === null) return { known: false, missing: ['the amount poured per cup'], atLeast: null }
  const poured = await findTrialsOfPanel(world.db, reader.cafeId, panelId)
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(poured))
  const trials = new Map(poured.map((row) => [row.id, row]))

  const missing = new Set<string>()
  const ofCups: { low: number; high: number }[] = []
  for (const cup of panel.cups) {
    const trial = trials.get(cup.trialId)
    const perMl = trial && caffeinePerMl(trial, (row) => trialBuild(row, store, reader.cafe))
    for (const what of perMl?.missing ?? [cup.trial.name]) missing.add(what)
    ofCups.push({ low: (perMl?.low ?? 0) * panel.sampleMl, high: (perMl?.high ?? 0) * panel.sampleMl })
  }
  const pourings = pouringsOf(panel)
  const total = {
    low: overPourings(
      ofCups.map(({ low }) => low).toSorted((a, b) => a - b),
      pourings,
    ),
    high: overPourings(
      ofCups.map(({ high }) => high).toSorted((a, b) => b - a),
      pourings,
    ),
  }
  const told = { ...total, singleDose: CAFFEINE_GUIDES.singleDose }
  if (missing.size > 0) return { known: false, missing: [...missing], atLeast: total.high > 0 ? told : null }
  return { known: true, ...told }
}

/**
 * Adds up the portions of one seat; of cups poured more than once the first is poured as often as one seat may have it.
 *
 * @param portions  of each cup: rising for the least that one drinks, falling for the most
 */
function overPourings(portions: readonly number[], pourings: Pourings | null): number {
  if (pourings === null) return portions.reduce((sum, one) => sum + one, 0)
  const { total, mostAtSeat } = pourings
  const [first = 0, other = 0] = portions
  return first * mostAtSeat + other * (total - mostAtSeat)
}

/** mg per ml as far as it is stated, and what is not. */
interface PerMl {
  readonly low: number
  readonly high: number
  readonly missing: readonly string[]
}

function caffeinePerMl(trial: TrialRow, toBuild: (row: TrialRow) => ReturnType<typeof trialBuild>): PerMl {
  const build = toBuild(trial)
  const { caffeine, volume, lines } = computeBuild(build)
  const ice = new Set(build.lines.filter((line) => line.form === 'ice').map((line) => line.key))
  const iceVolumes = lines.filter((line) => ice.has(line.key)).map((line) => line.volume)
  const missing = [caffeine, volume, ...iceVolumes].flatMap((figure) => (figure.known ? [] : figure.missing))
  const stated = caffeine.known ? caffeine : caffeine.atLeast
  const isPourable = volume.known && iceVolumes.every((figure) => figure.known)
  if (!isPourable || stated === undefined) return { low: 0, high: 0, missing }
  const iceMl = iceVolumes.reduce((sum, figure) => sum + (figure.known ? figure.value : 0), 0)
  const liquidMl = volume.value - iceMl
  if (liquidMl <= 0) return { low: 0, high: 0, missing: [...missing, `liquid in ${trial.name}`] }
  return { low: stated.low / volume.value, high: stated.high / liquidMl, missing }
}
