import 'server-only'
import type { Tx } from './engine/client'
import type { Prisma } from './generated/client'

/** The dealt servings of a panel with their cups: for invented tasters only (demo café, bench), never for a page. */
export async function findDealtServings(tx: Tx, cafeId: string, panelId: string) {
  return tx.serving.findMany({
    where: { cafeId, panelId },
    select: {
      id: true,
      seatId: true,
      position: true,
      cup: { select: { trialId: true } },
      seat: { select: { number: true } },
    },
    orderBy: [{ seat: { number: 'asc' } }, { position: 'asc' }],
  })
}

export async function findPanelAttributes(tx: Tx, cafeId: string, panelId: string) {
  return tx.panelAttribute.findMany({
    where: { cafeId, panelId },
    orderBy: { position: 'asc' },
    select: { id: true, position: true },
  })
}

export interface SimulatedSitting {
  readonly cafeId: string
  readonly tasters: readonly Prisma.TasterCreateManyInput[]
  readonly scores: readonly Prisma.ScoreCreateManyInput[]
  readonly comments: readonly { readonly servingId: string; readonly text: string }[]
  /** servings that were tasted to the end */
  readonly lockedServingIds: readonly string[]
  readonly at: Date
}

/** Seats invented tasters and writes down what they said. */
export async function addSitting(tx: Tx, sitting: SimulatedSitting): Promise<void> {
  const { cafeId, at } = sitting
  const seatIds = sitting.tasters.map((taster) => taster.seatId)
  await tx.seat.updateMany({ where: { cafeId, id: { in: seatIds } }, data: { takenAt: at } })
  await tx.taster.createMany({ data: [...sitting.tasters] })
  await tx.score.createMany({ data: [...sitting.scores] })
  await tx.serving.updateMany({
    where: { cafeId, id: { in: [...sitting.lockedServingIds] } },
    data: { pouredAt: at, codeSeenAt: at, lockedAt: at },
  })
  for (const { servingId, text } of sitting.comments) {
    await tx.serving.update({
      where: { id: servingId, cafeId },
      data: { comment: text, commentAt: at, commentRevision: 1 },
    })
  }
}
