import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

export type BenchNoteRow = Prisma.BenchNoteGetPayload<object>

export async function addBenchNote(tx: Tx, note: Prisma.BenchNoteUncheckedCreateInput): Promise<void> {
  await tx.benchNote.create({ data: note })
}

/** What its makers noted of a trial, oldest first. */
export async function findBenchNotes(db: Db | Tx, cafeId: string, trialId: string): Promise<BenchNoteRow[]> {
  return db.benchNote.findMany({ where: { cafeId, trialId }, orderBy: [{ at: 'asc' }, { id: 'asc' }] })
}

/** Has this member a seat in an open panel that pours the trial? Asked from the trial's few cups. */
export async function isTastingTrial(db: Db | Tx, cafeId: string, trialId: string, userId: string): Promise<boolean> {
  const cups = await db.cup.findMany({
    where: { cafeId, trialId, panel: { stage: 'open' } },
    select: { panelId: true },
  })
  if (cups.length === 0) return false
  const panelId = { in: cups.map((cup) => cup.panelId) }
  return (await db.seat.findFirst({ where: { cafeId, panelId, memberId: userId }, select: { id: true } })) !== null
}
