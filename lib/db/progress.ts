import 'server-only'
import type { Db, Tx } from './engine/client'

/**
 * How far each seat has come. No code, no cup, no position, no score: of scores and answers only which servings have one. It is asked
 * every second for every panel that is watched, so it may read what belongs to this panel and nothing else.
 */
export async function findProgress(db: Db | Tx, cafeId: string, panelId: string) {
  const [panel, scored, answered] = await Promise.all([
    db.panel.findFirst({
      where: { id: panelId, cafeId, stage: { not: 'draft' } },
      select: {
        stage: true,
        title: true,
        cups: { select: { panelId: true } },
        seats: {
          orderBy: { number: 'asc' },
          select: {
            number: true,
            takenAt: true,
            browserSince: true,
            movedAt: true,
            leftAt: true,
            onPaper: true,
            barredAt: true,
            barredWhy: true,
            setAsideAt: true,
            setAsideWhy: true,
            addedAt: true,
            repeatOfSeatId: true,
            id: true,
            taster: { select: { name: true } },
            servings: { select: { id: true, lockedAt: true, skippedAt: true, pouredAt: true, codeSeenAt: true } },
          },
        },
      },
    }),
    db.serving.findMany({ where: { cafeId, panelId, scores: { some: {} } }, select: { id: true } }),
    db.servingSet.findMany({
      where: { cafeId, panelId, answers: { some: {} } },
      select: { servings: { select: { id: true } } },
    }),
  ])
  if (!panel) return null
  const { cups, seats, ...head } = panel
  const hasScore = new Set([...scored, ...answered.flatMap(({ servings }) => servings)].map(({ id }) => id))
  return {
    ...head,
    cupCount: cups.length,
    seats: seats.map(({ servings, ...seat }) => ({
      ...seat,
      // Not in the order of tasting: whoever reads the answer learns how many, never which.
      servings: servings
        .toSorted((a, b) => (a.id < b.id ? -1 : 1))
        .map(({ id, ...serving }) => ({ ...serving, hasScore: hasScore.has(id) })),
    })),
  }
}
