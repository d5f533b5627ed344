import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { findTrialsOfPanel, type TrialRow } from '@/lib/db/trials'
import { computeBuild } from '@/lib/drink/build'
import { CAFFEINE_GUIDES } from '@/lib/drink/caffeine'
import { partsNamedIn, readStore } from '../store/reach-store'
import { trialBuild } from '../trial/trial-build'
import type { Actor, World, CafeMoney } from '../world'

/** mg that one taster drinks over all cups of a panel, and the dose that raises no concern for a healthy adult. */
export type PanelCaffeine =
  | { readonly known: true; readonly low: number; readonly high: number; readonly singleDose: number }
  | { readonly known: false; readonly missing: readonly string[] }

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
  if (panel.sampleMl === null) return { known: false, missing: ['the amount poured per cup'] }
  const poured = await findTrialsOfPanel(world.db, reader.cafeId, panelId)
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(poured))
  const trials = new Map(poured.map((row) => [row.id, row]))

  const total = { low: 0, high: 0 }
  const missing = new Set<string>()
  for (const cup of panel.cups) {
    const trial = trials.get(cup.trialId)
    const perMl = trial && caffeinePerMl(trial, (row) => trialBuild(row, store, reader.cafe))
    if (!perMl?.known) {
      for (const what of perMl?.missing ?? [cup.trial.name]) missing.add(what)
      continue
    }
    total.low += perMl.low * panel.sampleMl
    total.high += perMl.high * panel.sampleMl
  }
  if (missing.size > 0) return { known: false, missing: [...missing] }
  return { known: true, ...total, singleDose: CAFFEINE_GUIDES.singleDose }
}

function caffeinePerMl(trial: TrialRow, toBuild: (row: TrialRow) => ReturnType<typeof trialBuild>) {
  const build = toBuild(trial)
  const { caffeine, volume, lines } = computeBuild(build)
  const ice = new Set(build.lines.filter((line) => line.form === 'ice').map((line) => line.key))
  const iceVolumes = lines.filter((line) => ice.has(line.key)).map((line) => line.volume)
  const unknown = [caffeine, volume, ...iceVolumes].flatMap((figure) => (figure.known ? [] : figure.missing))
  if (unknown.length > 0 || !caffeine.known || !volume.known) return { known: false as const, missing: unknown }
  const iceMl = iceVolumes.reduce((sum, figure) => sum + (figure.known ? figure.value : 0), 0)
  const liquidMl = volume.value - iceMl
  if (liquidMl <= 0) return { known: false as const, missing: [`liquid in ${trial.name}`] }
  return { known: true as const, low: caffeine.low / volume.value, high: caffeine.high / liquidMl }
}
