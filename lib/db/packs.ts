import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

const shape = {
  id: true,
  ingredientId: true,
  mark: true,
  openedAt: true,
  discardAt: true,
  doneAt: true,
  ingredient: { select: { name: true } },
} as const satisfies Prisma.OpenedPackSelect

/** A pack that somebody opened, with the name of what is in it. */
export type PackRow = Prisma.OpenedPackGetPayload<{ select: typeof shape }>

/** More open packs than this are of a house that throws nothing away. */
const OPEN_SHOWN = 200

/** Packs that stand open, what must go first in front, those that nobody gave a date last. */
export async function findOpenPacks(
  db: Db | Tx,
  cafeId: string,
  ingredientIds?: readonly string[],
): Promise<readonly PackRow[]> {
  const of = ingredientIds === undefined ? {} : { ingredientId: { in: [...ingredientIds] } }
  return db.openedPack.findMany({
    where: { cafeId, doneAt: null, ...of },
    orderBy: [{ discardAt: { sort: 'asc', nulls: 'last' } }, { openedAt: 'asc' }, { id: 'asc' }],
    take: OPEN_SHOWN,
    select: shape,
  })
}

/** A pack with a date, for how long it stood open. */
export interface PackSpan {
  readonly ingredientId: string
  readonly openedAt: Date
  readonly discardAt: Date | null
  readonly doneAt: Date | null
}

/** Packs of these ingredients that carry a date and stood open at some time between two moments. */
export async function findPacksOpenBetween(
  db: Db | Tx,
  cafeId: string,
  ingredientIds: Iterable<string>,
  { from, until }: { readonly from: Date; readonly until: Date },
): Promise<readonly PackSpan[]> {
  return inSlices(ingredientIds, (some) =>
    db.openedPack.findMany({
      where: {
        ...{ cafeId, ingredientId: { in: some }, discardAt: { not: null }, openedAt: { lte: until } },
        OR: [{ doneAt: null }, { doneAt: { gte: from } }],
      },
      select: { ingredientId: true, openedAt: true, discardAt: true, doneAt: true },
    }),
  )
}

export async function findPack(db: Db | Tx, cafeId: string, id: string): Promise<PackRow | null> {
  return db.openedPack.findFirst({ where: { cafeId, id }, select: shape })
}

/** The pack that this showing of the page opened before, if it did: whether it still stands open or not. */
export async function findPackByKey(db: Db | Tx, cafeId: string, key: string): Promise<{ readonly id: string } | null> {
  return db.openedPack.findUnique({ where: { cafeId_key: { cafeId, key } }, select: { id: true } })
}

export async function addPack(tx: Tx, pack: Prisma.OpenedPackUncheckedCreateInput): Promise<void> {
  await tx.openedPack.create({ data: pack })
}

export async function setPackDone(tx: Tx, cafeId: string, id: string, at: Date, byId: string): Promise<void> {
  await tx.openedPack.update({ where: { id, cafeId }, data: { doneAt: at, doneById: byId } })
}

/** What may be opened, by name: on the shelf, and neither ice nor water. */
export async function findOpenable(db: Db | Tx, cafeId: string, ids?: readonly string[]) {
  const of = ids === undefined ? {} : { id: { in: [...ids] } }
  return db.ingredient.findMany({
    where: { cafeId, archivedAt: null, kind: { notIn: ['ice', 'water'] }, ...of },
    orderBy: { name: 'asc' },
    select: { id: true, name: true, openHours: true },
  })
}
