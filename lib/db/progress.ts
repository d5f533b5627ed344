import 'server-only'
import type { Db, Tx } from './client'

/** How far each seat has come. No code, no cup, no position, no score. */
export async function findProgress(db: Db | Tx, cafeId: string, panelId: string) {
  return db.panel.findFirst({
    where: { id: panelId, cafeId, stage: { not: 'draft' } },
    select: {
      stage: true,
      title: true,
      _count: { select: { cups: true } },
      seats: {
        orderBy: { number: 'asc' },
        select: {
          number: true,
          takenAt: true,
          leftAt: true,
          onPaper: true,
          addedAt: true,
          repeatOfSeatId: true,
          id: true,
          taster: { select: { name: true } },
          servings: {
            select: { lockedAt: true, skippedAt: true, pouredAt: true, _count: { select: { scores: true } } },
            // Not in the order of tasting: whoever reads the answer learns how many, never which.
            orderBy: { id: 'asc' },
          },
        },
      },
    },
  })
}
