import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

export async function findVessel(db: Db | Tx, cafeId: string, id: string) {
  return db.vessel.findFirst({ where: { cafeId, id } })
}

export async function findVesselByName(db: Db | Tx, cafeId: string, name: string) {
  return db.vessel.findUnique({ where: { cafeId_name: { cafeId, name } }, select: { id: true, archivedAt: true } })
}

export async function changeVessel(
  tx: Tx,
  cafeId: string,
  id: string,
  change: Prisma.VesselUncheckedUpdateInput,
): Promise<void> {
  await tx.vessel.update({ where: { id, cafeId }, data: change })
}

export async function findVessels(db: Db | Tx, cafeId: string) {
  return db.vessel.findMany({ where: { cafeId }, orderBy: { name: 'asc' } })
}

export async function addVessel(tx: Tx, vessel: Prisma.VesselUncheckedCreateInput): Promise<void> {
  await tx.vessel.create({ data: vessel })
}
