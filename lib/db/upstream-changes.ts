import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

/** What may change of an ingredient without anybody in the house having decided it. */
export const upstreamKinds = ['price', 'pack', 'supplier', 'label'] as const

export async function addUpstreamChange(tx: Tx, change: Prisma.UpstreamChangeUncheckedCreateInput): Promise<void> {
  await tx.upstreamChange.create({ data: change })
}

const told = {
  id: true,
  ingredientId: true,
  what: true,
  before: true,
  after: true,
  at: true,
  byId: true,
  lookedAt: true,
  lookedById: true,
  ingredient: { select: { name: true } },
} as const satisfies Prisma.UpstreamChangeSelect

export type UpstreamChangeRow = Prisma.UpstreamChangeGetPayload<{ select: typeof told }>

/** Changes that nobody has looked at, oldest first. */
export async function findOpenChanges(db: Db | Tx, cafeId: string, take: number): Promise<UpstreamChangeRow[]> {
  return db.upstreamChange.findMany({
    where: { cafeId, lookedAt: null },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    take,
    select: told,
  })
}

/** Changes that somebody looked at, those looked at last first. */
export async function findLookedChanges(db: Db | Tx, cafeId: string, take: number): Promise<UpstreamChangeRow[]> {
  return db.upstreamChange.findMany({
    where: { cafeId, lookedAt: { not: null } },
    orderBy: [{ lookedAt: 'desc' }, { at: 'desc' }, { id: 'desc' }],
    take,
    select: told,
  })
}

/** @returns how many of them were not looked at before: who looked first stays named */
export async function setLookedAt(
  tx: Tx,
  of: { readonly cafeId: string; readonly ingredientId: string; readonly ids: readonly string[] },
  at: Date,
  byId: string,
): Promise<number> {
  const { cafeId, ingredientId, ids } = of
  const { count } = await tx.upstreamChange.updateMany({
    where: { cafeId, ingredientId, id: { in: [...ids] }, lookedAt: null },
    data: { lookedAt: at, lookedById: byId },
  })
  return count
}

/** Of these ingredients, those of which a change of price was told after a moment, looked at or not. */
export async function findPriceChangesToldSince(
  db: Db | Tx,
  cafeId: string,
  ingredientIds: readonly string[],
  since: Date,
): Promise<ReadonlySet<string>> {
  const rows = await db.upstreamChange.findMany({
    where: { cafeId, ingredientId: { in: [...ingredientIds] }, what: { in: ['price', 'pack'] }, at: { gt: since } },
    select: { ingredientId: true },
  })
  return new Set(rows.map(({ ingredientId }) => ingredientId))
}
