import 'server-only'
import type { StoredServing } from '@/lib/panel/blind'
import type { Db, Tx } from './engine/client'

/** One serving as its own seat may touch it. The cup is not asked for: what is not read cannot slip out. */
const phoneServing = {
  id: true,
  setId: true,
  position: true,
  code: true,
  codeSeenAt: true,
  lockedAt: true,
  skippedAt: true,
  skipSource: true,
  comment: true,
  commentAt: true,
  commentSource: true,
  commentRevision: true,
} as const

export type PhoneServing = {
  readonly id: string
  /** the set it is answered in; null: by itself */
  readonly setId: string | null
  readonly position: number
  readonly code: string
  readonly codeSeenAt: Date | null
  readonly lockedAt: Date | null
  readonly skippedAt: Date | null
  readonly skipSource: string | null
  readonly comment: string | null
  readonly commentAt: Date | null
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
    select: { id: true, position: true, name: true, kind: true, about: true, options: true },
  })
}

/** @param about  a question about a serving is none about a set, and the other way round */
export async function findAttribute(
  tx: Tx,
  cafeId: string,
  panelId: string,
  position: number,
  about: 'serving' | 'set',
) {
  const found = await tx.panelAttribute.findUnique({
    where: { cafeId_panelId_position: { cafeId, panelId, position } },
    select: { id: true, name: true, kind: true, about: true, options: true },
  })
  return found?.about === about ? found : null
}

/** All answers of one serving, told apart by their question; of one panel's questions there are few. */
export async function findAnswers(tx: Tx, cafeId: string, servingId: string) {
  return tx.score.findMany({
    where: { cafeId, servingId },
    select: { id: true, attributeId: true, value: true, revision: true, key: true },
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

/**
 * Keeps an answer that came after closing: of each question of a cup the first and the last. A sending that is kept already,
 * or is older than what is, changes nothing.
 * @returns whether it is the first
 */
export async function keepLateScore(tx: Tx, row: ScoreRow): Promise<boolean> {
  const { id, cafeId, servingId, attributeId, ...answer } = row
  const kept = await tx.lateScore.findMany({
    where: { cafeId, servingId, attributeId },
    orderBy: [{ at: 'asc' }, { revision: 'asc' }],
    select: { id: true, revision: true },
  })
  if (kept.some(({ revision }) => revision >= answer.revision)) return false
  const last = kept.at(-1)
  if (last && kept.length > 1) await tx.lateScore.update({ where: { id: last.id }, data: answer, select: { id: true } })
  else await tx.lateScore.create({ data: { id, cafeId, servingId, attributeId, ...answer }, select: { id: true } })
  return kept.length === 0
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
    | {
        readonly comment: string
        readonly commentAt: Date
        readonly commentRevision: number
        readonly commentSource: 'phone'
      },
): Promise<void> {
  await tx.serving.update({ where: { id: servingId }, data: to, select: { id: true } })
}
