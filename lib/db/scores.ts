import 'server-only'
import type { StoredServing } from '@/lib/panel/blind'
import type { Db, Tx } from './engine/client'

/** One serving as its own seat may touch it. The cup is not asked for: what is not read cannot slip out. */
const phoneServing = {
  id: true,
  position: true,
  code: true,
  codeSeenAt: true,
  lockedAt: true,
  skippedAt: true,
  skipSource: true,
  comment: true,
  commentSource: true,
  commentRevision: true,
} as const

export type PhoneServing = {
  readonly id: string
  readonly position: number
  readonly code: string
  readonly codeSeenAt: Date | null
  readonly lockedAt: Date | null
  readonly skippedAt: Date | null
  readonly skipSource: string | null
  readonly comment: string | null
  readonly commentSource: string | null
  readonly commentRevision: number
}

type SeatKey = { readonly cafeId: string; readonly id: string }

export async function findServingByCode(tx: Tx, seat: SeatKey, code: string): Promise<PhoneServing | null> {
  return tx.serving.findUnique({
    where: { cafeId_seatId_code: { cafeId: seat.cafeId, seatId: seat.id, code } },
    select: phoneServing,
  })
}

export async function findServingsOfSeat(db: Db | Tx, seat: SeatKey): Promise<StoredServing[]> {
  const rows = await db.serving.findMany({
    where: { cafeId: seat.cafeId, seatId: seat.id },
    orderBy: { position: 'asc' },
    select: {
      ...phoneServing,
      scores: { select: { value: true, revision: true, attribute: { select: { position: true } } } },
    },
  })
  return rows.map(({ scores, ...serving }) => ({
    ...serving,
    scores: scores.map(({ value, revision, attribute }) => ({
      value,
      revision,
      attributePosition: attribute.position,
    })),
  }))
}

export async function listAttributes(db: Db | Tx, cafeId: string, panelId: string) {
  return db.panelAttribute.findMany({
    where: { cafeId, panelId },
    orderBy: { position: 'asc' },
    select: { id: true, position: true, name: true },
  })
}

export async function findAttribute(tx: Tx, cafeId: string, panelId: string, position: number) {
  return tx.panelAttribute.findUnique({
    where: { cafeId_panelId_position: { cafeId, panelId, position } },
    select: { id: true },
  })
}

export async function findScore(tx: Tx, cafeId: string, servingId: string, attributeId: string) {
  return tx.score.findUnique({
    where: { cafeId_servingId_attributeId: { cafeId, servingId, attributeId } },
    select: { id: true, value: true, revision: true, key: true },
  })
}

export async function countScores(tx: Tx, cafeId: string, servingId: string): Promise<number> {
  return tx.score.count({ where: { cafeId, servingId } })
}

export type ScoreRow = {
  readonly id: string
  readonly cafeId: string
  readonly servingId: string
  readonly attributeId: string
  readonly value: number
  readonly revision: number
  readonly key: string
  readonly at: Date
}

export async function addScore(tx: Tx, row: ScoreRow): Promise<void> {
  await tx.score.create({ data: { ...row, source: 'phone' }, select: { id: true } })
}

export async function changeScore(
  tx: Tx,
  scoreId: string,
  to: Pick<ScoreRow, 'value' | 'revision' | 'key' | 'at'>,
): Promise<void> {
  await tx.score.update({ where: { id: scoreId }, data: { ...to, source: 'phone' }, select: { id: true } })
}

/** Keeps an answer that came after closing; false when this very sending is already kept. */
export async function keepLateScore(tx: Tx, row: ScoreRow): Promise<boolean> {
  const { cafeId, servingId, attributeId, key } = row
  const kept = await tx.lateScore.findUnique({
    where: { cafeId_servingId_attributeId_key: { cafeId, servingId, attributeId, key } },
    select: { id: true },
  })
  if (kept) return false
  await tx.lateScore.create({ data: row, select: { id: true } })
  return true
}

export async function changeServing(
  tx: Tx,
  servingId: string,
  to:
    | { readonly codeSeenAt: Date }
    | { readonly lockedAt: Date }
    | {
        readonly skippedAt: Date
        readonly lockedAt: Date
        readonly skipReason: string
        readonly skipSource: 'phone'
      }
    | { readonly comment: string; readonly commentRevision: number; readonly commentSource: 'phone' },
): Promise<void> {
  await tx.serving.update({ where: { id: servingId }, data: to, select: { id: true } })
}
