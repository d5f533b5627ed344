import 'server-only'
import { stringify } from 'csv-stringify/sync'
import { findPanel, type PanelRecord } from '@/lib/db/panels'
import { findTrialsOfPanel } from '@/lib/db/trials'
import { findOneDose } from '@/lib/drink/one-dose'
import { findStage, isUnblinded } from '@/lib/panel/plan'
import { dose, type DoseAnswer } from '@/lib/stats/dose/dose'
import { UnusableReadings } from '@/lib/stats/outcome'
import { findClosedServings, inHeadline } from './closed-servings'
import { resultCups, scoreRows } from './panel-answers'
import { partsNamedIn, readStore } from '../store/reach-store'
import { buildAsOfItsDay } from '../trial/frozen-build'
import type { Reader, World } from '../world'

const LEVEL = 0.95

/** A panel whose cups were the same drink but for the amount of one thing: how liking goes with it. */
export interface DoseResult {
  /** what the cups differ in */
  readonly name: string
  /** each cup's letter with its grams a glass, least first */
  readonly cups: readonly { readonly letter: string; readonly grams: number }[]
  readonly answer: DoseAnswer
}

interface DoseRows {
  readonly name: string
  readonly cups: DoseResult['cups']
  readonly rows: readonly {
    readonly taster: string
    readonly cup: string
    readonly dose: number
    readonly score: number | null
  }[]
}

/** @returns null before closing, where no liking was asked, the cups differ in more than one thing or in fewer than three amounts, or nobody scored */
export async function readDose(world: World, reader: Reader, panelId: string): Promise<DoseResult | null> {
  const panel = await findClosed(world, reader, panelId)
  const found = panel && (await findDoseRows(world, reader, panel))
  if (!found) return null
  try {
    return { name: found.name, cups: found.cups, answer: dose(found.rows, { level: LEVEL }) }
  } catch (error) {
    if (error instanceof UnusableReadings) return null
    throw error
  }
}

/**
 * One line per score with its dose in grams, what the `dose` analysis reads; none where the cups differ in no one dose.
 * @returns null while the panel is not closed
 */
export async function exportDose(world: World, reader: Reader, panelId: string): Promise<string | null> {
  const panel = await findClosed(world, reader, panelId)
  if (!panel) return null
  const found = await findDoseRows(world, reader, panel)
  const lines = (found?.rows ?? []).map(({ taster, cup, dose: grams, score }) => [taster, cup, grams, score ?? ''])
  return stringify(lines, {
    header: true,
    escape_formulas: true,
    record_delimiter: 'windows',
    columns: ['taster', 'cup', 'dose', 'score'],
  })
}

async function findClosed(world: World, reader: Reader, panelId: string): Promise<PanelRecord | null> {
  const panel = await findPanel(world.db, reader.cafeId, panelId)
  return panel && isUnblinded(findStage(panel.stage) ?? 'draft') ? panel : null
}

async function findDoseRows(world: World, reader: Reader, panel: PanelRecord): Promise<DoseRows | null> {
  const grams = panel.kind === 'liking' ? await gramsOf(world, reader, panel) : null
  if (!grams) return null
  const cups = resultCups(panel)
  const servings = inHeadline(await findClosedServings(world.db, reader.cafeId, panel.id))
  const ofCup = new Map(cups.map(({ letter, trialId }) => [letter, grams.of.get(trialId) ?? 0]))
  return {
    name: grams.name,
    cups: [...ofCup].map(([letter, one]) => ({ letter, grams: one })).toSorted((a, b) => a.grams - b.grams),
    rows: scoreRows(servings, cups, panel.attributes[0]?.id ?? '').map(({ taster, cup, score }) => ({
      taster,
      cup,
      dose: ofCup.get(cup) ?? 0,
      score,
    })),
  }
}

async function gramsOf(world: World, reader: Reader, panel: PanelRecord) {
  const trials = await findTrialsOfPanel(world.db, reader.cafeId, panel.id)
  const store = await readStore(world.db, reader.cafeId, world.now(), partsNamedIn(trials))
  const found = findOneDose(trials.map((trial) => buildAsOfItsDay(trial, store, reader.cafe)))
  return found && { name: found.name, of: new Map(trials.map(({ id }, at) => [id, found.grams[at] ?? 0])) }
}
