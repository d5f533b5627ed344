import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

export async function addCostLevel(
  tx: Tx,
  level: Omit<Prisma.CostLevelUncheckedCreateInput, 'position'>,
): Promise<boolean> {
  const { cafeId, recipeId, name } = level
  const rows = await tx.costLevel.findMany({ where: { cafeId, recipeId }, select: { name: true } })
  if (rows.some((row) => row.name === name)) return false
  await tx.costLevel.create({ data: { ...level, position: rows.length + 1 } })
  return true
}

export async function findCostLevel(db: Db | Tx, cafeId: string, id: string) {
  return db.costLevel.findFirst({ where: { cafeId, id }, select: { id: true, recipeId: true, name: true } })
}

/** Sets what a level uses on the lines of one trial: what was there before for them is replaced. */
export async function setAlternatives(
  tx: Tx,
  where: { readonly cafeId: string; readonly trialId: string; readonly costLevelId: string },
  rows: readonly Prisma.LineAlternativeCreateManyInput[],
): Promise<void> {
  const { cafeId, trialId, costLevelId } = where
  await tx.lineAlternative.deleteMany({ where: { cafeId, costLevelId, line: { trialId } } })
  await tx.lineAlternative.createMany({ data: [...rows] })
}

/** Which level a trial was really tasted at. Said afterwards too: it changes no line. */
export async function setTastedLevel(
  tx: Tx,
  cafeId: string,
  trialId: string,
  costLevelId: string | null,
): Promise<void> {
  await tx.trial.update({ where: { id: trialId, cafeId }, data: { costLevelId } })
}

export async function findCostLevels(db: Db | Tx, cafeId: string, recipeId: string) {
  return db.costLevel.findMany({ where: { cafeId, recipeId }, orderBy: { position: 'asc' } })
}
