import 'server-only'
import type { Db, Tx } from './client'

/** One seat with what a paper form needs: its codes, and what is known of each. Neither cup nor letter. */
export async function findPaperSeat(db: Db | Tx, cafeId: string, panelId: string, number: number) {
  return db.seat.findFirst({
    where: { cafeId, panelId, number, panel: { stage: 'open' } },
    select: {
      id: true,
      number: true,
      takenAt: true,
      leftAt: true,
      onPaper: true,
      taster: { select: { name: true } },
      servings: {
        // By code, so that the order of tasting does not travel.
        orderBy: { code: 'asc' },
        select: {
          id: true,
          code: true,
          skippedAt: true,
          skipReason: true,
          comment: true,
          commentRevision: true,
          scores: { select: { id: true, value: true, revision: true, source: true, attributeId: true } },
        },
      },
    },
  })
}

export type PaperSeatRecord = NonNullable<Awaited<ReturnType<typeof findPaperSeat>>>

/** From here on nobody is given this seat by a phone; one who held it stays known as its taster. */
export async function setOnPaper(tx: Tx, seatId: string, at: Date): Promise<void> {
  await tx.seat.updateMany({ where: { id: seatId, takenAt: null }, data: { takenAt: at } })
  await tx.seat.update({ where: { id: seatId }, data: { onPaper: true } })
}

/** @returns false when the seat had left already, or is no seat of an open panel */
export async function setLeft(tx: Tx, cafeId: string, panelId: string, number: number, at: Date): Promise<boolean> {
  const { count } = await tx.seat.updateMany({
    where: { cafeId, panelId, number, leftAt: null, panel: { stage: 'open' } },
    data: { leftAt: at },
  })
  return count === 1
}

export async function putPaperScore(
  tx: Tx,
  score: {
    readonly id: string
    readonly cafeId: string
    readonly servingId: string
    readonly attributeId: string
    readonly value: number
    readonly revision: number
    readonly enteredById: string
    readonly at: Date
  },
): Promise<void> {
  const { cafeId, servingId, attributeId, value, revision, enteredById, at } = score
  const written = { value, revision, enteredById, at, key: score.id, source: 'paper' }
  await tx.score.upsert({
    where: { cafeId_servingId_attributeId: { cafeId, servingId, attributeId } },
    create: { id: score.id, cafeId, servingId, attributeId, ...written },
    update: written,
  })
}

export async function setPaperServing(
  tx: Tx,
  servingId: string,
  to: {
    readonly lockedAt: Date
    readonly skippedAt: Date | null
    readonly skipReason: string | null
    readonly comment: string | null
    readonly commentRevision: number
  },
): Promise<void> {
  await tx.serving.update({ where: { id: servingId }, data: to })
}
