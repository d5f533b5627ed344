import 'server-only'
import { findPanels, type PanelRow } from '@/lib/db/panels'
import { findStage, stages, type Stage } from '@/lib/panel/plan'
import type { Actor, World } from '../world'

/** The longest list of one stage a page shows, the newest first. */
const atMost = 100

export interface PanelLine {
  readonly id: string
  readonly title: string
  readonly stage: Stage
  readonly recipe: { readonly id: string; readonly name: string }
  readonly cups: number
  readonly seats: number
  readonly isDemo: boolean
  /** when it came to the stage it is at */
  readonly at: Date
}

/** What needs somebody first: open panels, then results that wait for a decision, then drafts, then history. */
const urgency: Readonly<Record<Stage, number>> = {
  open: 0,
  closed: 1,
  draft: 2,
  decided: 3,
  'called-off': 4,
}

/** @param onlyOpen  for who may pour and no more */
export async function readPanels(world: World, actor: Actor, onlyOpen: boolean): Promise<readonly PanelLine[]> {
  // Stage by stage: a long history never crowds out what is open.
  const wanted: readonly Stage[] = onlyOpen ? ['open'] : stages
  const rows = (await Promise.all(wanted.map((stage) => findPanels(world.db, actor.cafeId, stage, atMost)))).flat()
  return rows.map(toLine).toSorted((a, b) => urgency[a.stage] - urgency[b.stage] || b.at.getTime() - a.at.getTime())
}

function toLine(row: PanelRow): PanelLine {
  return {
    id: row.id,
    title: row.title,
    stage: findStage(row.stage) ?? 'draft',
    recipe: row.recipe,
    cups: row.cupCount,
    seats: row.seatCount,
    isDemo: row.isDemo,
    at: row.calledOffAt ?? row.closedAt ?? row.openedAt ?? row.createdAt,
  }
}
