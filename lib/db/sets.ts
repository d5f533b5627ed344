import 'server-only'
import type { StoredSet } from '@/lib/panel/blind'
import type { Db, Tx } from './engine/client'

/** A set as its own seat may touch it: of its servings their places in this seat's order, never the cups. */
const phoneSet = {
  id: true,
  number: true,
  lockedAt: true,
  skippedAt: true,
  skipSource: true,
  servings: { select: { position: true } },
} as const

export interface PhoneSet {
  readonly id: string
  readonly number: number
  readonly lockedAt: Date | null
  readonly skippedAt: Date | null
  readonly skipSource: string | null
  readonly positions: readonly number[]
}

type SeatKey = { readonly cafeId: string; readonly id: string }

export async function findSetByNumber(tx: Tx, seat: SeatKey, number: number): Promise<PhoneSet | null> {
  const found = await tx.servingSet.findUnique({
    where: { cafeId_seatId_number: { cafeId: seat.cafeId, seatId: seat.id, number } },
    select: phoneSet,
  })
  if (!found) return null
  const { servings, ...set } = found
  return { ...set, positions: servings.map(({ position }) => position) }
}

/** @param read  an answer as it is kept, read; a text that is none is no answer */
export async function findSetsOfSeat(
  db: Db | Tx,
  seat: SeatKey,
  read: (text: string) => readonly number[] | null,
): Promise<StoredSet[]> {
  const sets = await db.servingSet.findMany({
    where: { cafeId: seat.cafeId, seatId: seat.id },
    orderBy: { number: 'asc' },
    select: {
      ...phoneSet,
      answers: { select: { answer: true, revision: true, attribute: { select: { position: true } } } },
    },
  })
  return sets.map(({ servings, answers, number, lockedAt, skippedAt }) => ({
    number,
    lockedAt,
    skippedAt,
    positions: servings.map(({ position }) => position),
    answers: answers.flatMap(({ answer, revision, attribute }) => {
      const said = read(answer)
      return said ? [{ answer: said, revision, attributePosition: attribute.position }] : []
    }),
  }))
}

/** All answers of one set, told apart by their question. */
export async function findSetAnswers(tx: Tx, cafeId: string, setId: string) {
  return tx.setAnswer.findMany({
    where: { cafeId, setId },
    select: { id: true, attributeId: true, answer: true, revision: true, key: true, source: true },
  })
}

export interface SetAnswerRow {
  readonly id: string
  readonly cafeId: string
  readonly setId: string
  readonly attributeId: string
  readonly answer: string
  readonly revision: number
  readonly key: string
  readonly source: 'phone' | 'paper'
  readonly enteredById: string | null
  readonly at: Date
}

export async function addSetAnswer(tx: Tx, row: SetAnswerRow): Promise<void> {
  await tx.setAnswer.create({ data: row, select: { id: true } })
}

export async function changeSetAnswer(
  tx: Tx,
  answerId: string,
  to: Pick<SetAnswerRow, 'answer' | 'revision' | 'key' | 'source' | 'enteredById' | 'at'>,
): Promise<void> {
  await tx.setAnswer.update({ where: { id: answerId }, data: to, select: { id: true } })
}

/**
 * Keeps an answer that came after closing: of each question of a set the first and the last. A sending that is kept already,
 * or is older than what is, changes nothing.
 * @returns whether it is the first
 */
export async function keepLateAnswer(tx: Tx, row: SetAnswerRow): Promise<boolean> {
  const { id, cafeId, setId, attributeId, ...answer } = row
  const where = { cafeId, setId, attributeId, why: 'late' }
  const kept = await tx.uncountedAnswer.findMany({
    where,
    orderBy: [{ at: 'asc' }, { revision: 'asc' }],
    select: { id: true, revision: true },
  })
  if (kept.some(({ revision }) => revision >= answer.revision)) return false
  const last = kept.at(-1)
  const data = { ...answer, uncountedAt: answer.at }
  if (last && kept.length > 1) await tx.uncountedAnswer.update({ where: { id: last.id }, data, select: { id: true } })
  else await tx.uncountedAnswer.create({ data: { id, ...where, ...data }, select: { id: true } })
  return kept.length === 0
}

/** What becomes of a set becomes of every serving in it. */
export async function settleSet(
  tx: Tx,
  setId: string,
  to: {
    readonly lockedAt: Date | null
    readonly skippedAt: Date | null
    readonly skipReason: string | null
    readonly skipSource: 'phone' | 'paper' | null
  },
): Promise<void> {
  await tx.servingSet.update({ where: { id: setId }, data: to, select: { id: true } })
  await tx.serving.updateMany({ where: { setId }, data: to })
}
