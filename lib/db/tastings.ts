import 'server-only'
import type { Db } from './engine/client'

interface Newest {
  readonly trialId: string
  readonly panelId: string
}

/**
 * Of each of these trials, the newest closed panel that poured it; one that asked how it is liked comes before one that did
 * not. Three questions, however many panels there were: what all of them keep of their closing is not read.
 */
export async function findNewestTastings(db: Db, cafeId: string, trialIds: readonly string[]) {
  const newest = await db.$queryRaw<Newest[]>`
    SELECT trialId, panelId FROM (
      SELECT Cup.trialId AS trialId, Cup.panelId AS panelId, ROW_NUMBER() OVER (
        PARTITION BY Cup.trialId ORDER BY Panel.kind <> 'liking', Panel.closedAt DESC, Panel.id DESC
      ) AS nth
      FROM json_each(${JSON.stringify(trialIds)}) AS named
      CROSS JOIN Cup ON Cup.trialId = named.value
      CROSS JOIN Panel ON Panel.id = Cup.panelId
      WHERE Cup.cafeId = ${cafeId} AND Cup.isDuplicate = 0 AND Panel.stage IN ('closed', 'decided')
    ) WHERE nth = 1`
  const panels = await db.panel.findMany({
    where: { cafeId, id: { in: [...new Set(newest.map(({ panelId }) => panelId))] } },
    select: { id: true, title: true, kind: true, closedAt: true, isDemo: true, closingAnswer: true },
  })
  const byId = new Map(panels.map((panel) => [panel.id, panel]))
  return newest.flatMap(({ trialId, panelId }) => {
    const panel = byId.get(panelId)
    return panel ? [{ trialId, panel }] : []
  })
}

/** Which of these trials an open panel pours. */
export async function findPouredNow(db: Db, cafeId: string, trialIds: readonly string[]): Promise<ReadonlySet<string>> {
  const open = await db.panel.findMany({
    where: { cafeId, stage: 'open' },
    select: { cups: { select: { trialId: true } } },
  })
  const poured = new Set(open.flatMap(({ cups }) => cups.map(({ trialId }) => trialId)))
  return new Set(trialIds.filter((id) => poured.has(id)))
}
