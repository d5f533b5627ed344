import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

export async function addPhoto(tx: Tx, photo: Prisma.PhotoUncheckedCreateInput): Promise<void> {
  await tx.photo.create({ data: photo })
}

const line = {
  id: true,
  recipeId: true,
  trialId: true,
  type: true,
  width: true,
  height: true,
  caption: true,
  createdAt: true,
  createdById: true,
  trial: { select: { number: true, name: true } },
} as const satisfies Prisma.PhotoSelect

/** Photos of a recipe and of its trials that were not taken out, newest first; the pictures themselves are asked for one by one. */
export async function findPhotos(db: Db | Tx, cafeId: string, recipeId: string) {
  const trials = await db.trial.findMany({ where: { cafeId, recipeId }, select: { id: true } })
  const trialIds = trials.map(({ id }) => id)
  const of = { OR: [{ recipeId }, { trialId: { in: trialIds } }] }
  return db.photo.findMany({
    where: { cafeId, removedAt: null, ...of },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: 100,
    select: line,
  })
}

/** Of which recipe a photo is, and of which trial; null where it is not there or was taken out. */
export async function findPhoto(db: Db | Tx, cafeId: string, id: string) {
  return db.photo.findFirst({
    where: { cafeId, id, removedAt: null },
    select: { ...line, trial: { select: { number: true, name: true, recipeId: true } } },
  })
}

export async function findPhotoBytes(db: Db | Tx, cafeId: string, id: string): Promise<Uint8Array | null> {
  const row = await db.photo.findFirst({ where: { cafeId, id, removedAt: null }, select: { bytes: true } })
  return row?.bytes ?? null
}

export async function countPhotos(tx: Tx, cafeId: string, of: { recipeId: string } | { trialId: string }) {
  return tx.photo.count({ where: { cafeId, removedAt: null, ...of } })
}

/** The row stays, without its picture. @returns false when it was taken out before */
export async function setPhotoRemoved(tx: Tx, cafeId: string, id: string, at: Date, byId: string): Promise<boolean> {
  const { count } = await tx.photo.updateMany({
    where: { cafeId, id, removedAt: null },
    data: { bytes: null, removedAt: at, removedById: byId },
  })
  return count === 1
}

/** Has this member a seat in an open panel of the recipe? Asked from its few open panels. */
export async function isTastingRecipe(db: Db | Tx, cafeId: string, recipeId: string, userId: string): Promise<boolean> {
  const panels = await db.panel.findMany({ where: { cafeId, recipeId, stage: 'open' }, select: { id: true } })
  if (panels.length === 0) return false
  const panelId = { in: panels.map(({ id }) => id) }
  return (await db.seat.findFirst({ where: { cafeId, panelId, memberId: userId }, select: { id: true } })) !== null
}
