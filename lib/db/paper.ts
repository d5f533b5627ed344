import 'server-only'
import type { Db, Tx } from './engine/client'

/** One seat with its codes, and whose the answers are. Neither cup nor letter, and nothing of what was said. */
export async function findPaperSeat(db: Db | Tx, cafeId: string, panelId: string, number: number) {
  return db.seat.findFirst({
    where: { cafeId, panelId, number, panel: { stage: 'open' } },
    select: {
      id: true,
      number: true,
      takenAt: true,
      leftAt: true,
      onPaper: true,
      barredAt: true,
      setAsideAt: true,
      taster: { select: { name: true, forgottenAt: true } },
      servings: {
        // By code, so that the order of tasting does not travel.
        orderBy: { code: 'asc' },
        select: {
          id: true,
          code: true,
          lockedAt: true,
          skippedAt: true,
          skipSource: true,
          commentSource: true,
          commentAt: true,
          commentRevision: true,
          scores: { select: { source: true } },
        },
      },
    },
  })
}

export type PaperSeatRecord = NonNullable<Awaited<ReturnType<typeof findPaperSeat>>>

/** Which of these servings have a comment. Its text is asked for elsewhere, and only where it is from paper. */
export async function findCommented(db: Db | Tx, servingIds: readonly string[]): Promise<ReadonlySet<string>> {
  const commented = await db.serving.findMany({
    where: { id: { in: [...servingIds] }, AND: [{ comment: { not: null } }, { comment: { not: '' } }] },
    select: { id: true },
  })
  return new Set(commented.map(({ id }) => id))
}

/** What a sheet of paper said of these servings: for cups and comments that no phone has answered. */
export async function findPaperScores(db: Db | Tx, servingIds: readonly string[]) {
  return db.score.findMany({
    where: { servingId: { in: [...servingIds] }, source: 'paper' },
    select: { id: true, servingId: true, attributeId: true, value: true, revision: true, enteredById: true, at: true },
  })
}

export async function findComments(db: Db | Tx, servingIds: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const rows = await db.serving.findMany({
    where: { id: { in: [...servingIds] } },
    select: { id: true, comment: true },
  })
  return new Map(rows.map(({ id, comment }) => [id, comment ?? '']))
}

export async function findSkipReasons(
  db: Db | Tx,
  servingIds: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await db.serving.findMany({
    where: { id: { in: [...servingIds] }, skippedAt: { not: null } },
    select: { id: true, skipReason: true },
  })
  return new Map(rows.map(({ id, skipReason }) => [id, skipReason ?? '']))
}

/** From here on nobody is given this seat by a phone; one who held it stays known as its taster. */
export async function setOnPaper(tx: Tx, seatId: string, at: Date): Promise<void> {
  await tx.seat.updateMany({ where: { id: seatId, takenAt: null }, data: { takenAt: at } })
  await tx.seat.update({ where: { id: seatId }, data: { onPaper: true } })
}

/** @returns false when the seat had left already, or is no seat of an open panel */
export async function setLeft(tx: Tx, cafeId: string, panelId: string, number: number, at: Date): Promise<boolean> {
  const { count } = await tx.seat.updateMany({
    where: { cafeId, panelId, number, leftAt: null, panel: { stage: 'open' } },
    data: { leftAt: at },
  })
  return count === 1
}

interface PaperScore {
  readonly id: string
  readonly cafeId: string
  readonly servingId: string
  readonly attributeId: string
  readonly value: number
  readonly revision: number
  readonly enteredById: string
  readonly at: Date
}

export async function addPaperScore(tx: Tx, score: PaperScore): Promise<void> {
  await tx.score.create({ data: { ...score, key: score.id, source: 'paper' }, select: { id: true } })
}

export async function changePaperScore(
  tx: Tx,
  scoreId: string,
  to: Pick<PaperScore, 'value' | 'revision' | 'enteredById' | 'at'>,
): Promise<void> {
  await tx.score.update({ where: { id: scoreId, source: 'paper' }, data: to, select: { id: true } })
}

export async function dropPaperScore(tx: Tx, scoreId: string): Promise<void> {
  await tx.score.delete({ where: { id: scoreId, source: 'paper' }, select: { id: true } })
}

export async function setPaperServing(
  tx: Tx,
  servingId: string,
  to: {
    readonly lockedAt: Date | null
    readonly skippedAt: Date | null
    readonly skipReason: string | null
    readonly skipSource: 'paper' | null
    readonly comment?: string | null
    readonly commentAt?: Date | null
    readonly commentSource?: 'paper' | null
    readonly commentRevision?: number
  },
): Promise<void> {
  await tx.serving.update({ where: { id: servingId }, data: to, select: { id: true } })
}

/** What stood before a correction: kept for ever, never counted. */
export interface ReplacedRow {
  readonly id: string
  readonly cafeId: string
  readonly servingId: string
  readonly attributeId: string | null
  readonly value?: number
  readonly comment?: string
  readonly skipReason?: string
  readonly revision: number
  readonly enteredById: string | null
  readonly at: Date | null
  /** where what stood came from */
  readonly source: 'phone' | 'paper'
  readonly replacedAt: Date
  /** null: by a taster, on the phone that went on with the seat */
  readonly replacedById: string | null
}

export async function keepReplaced(tx: Tx, row: ReplacedRow): Promise<void> {
  await tx.replacedAnswer.create({ data: row, select: { id: true } })
}

/** The highest revision that ever stood at this serving for this attribute and was replaced; 0 if none was. */
export async function lastReplacedRevision(tx: Tx, servingId: string, attributeId: string): Promise<number> {
  const last = await tx.replacedAnswer.findFirst({
    where: { servingId, attributeId },
    orderBy: { revision: 'desc' },
    select: { revision: true },
  })
  return last?.revision ?? 0
}

/** Seats of an open panel that are still poured for, with their codes in the order of tasting. Neither cup nor letter. */
export async function findMatSeats(db: Db | Tx, cafeId: string, panelId: string) {
  return db.seat.findMany({
    where: { cafeId, panelId, panel: { stage: 'open' }, leftAt: null, barredAt: null, setAsideAt: null },
    orderBy: { number: 'asc' },
    select: { number: true, servings: { orderBy: { position: 'asc' }, select: { code: true, setId: true } } },
  })
}

/**
 * What stands on printed ballots: codes in the order of tasting, and nothing else of a serving.
 *
 * @param free  those of seats that nobody has taken as well; a seat that answers on its phone has none
 */
export async function findBallotSeats(db: Db | Tx, cafeId: string, panelId: string, free: boolean) {
  const whose = free ? { OR: [{ onPaper: true }, { takenAt: null }] } : { onPaper: true }
  return db.seat.findMany({
    where: { cafeId, panelId, panel: { stage: 'open' }, leftAt: null, barredAt: null, setAsideAt: null, ...whose },
    orderBy: { number: 'asc' },
    select: {
      id: true,
      number: true,
      cardToken: true,
      servings: { orderBy: { position: 'asc' }, select: { code: true, setId: true } },
    },
  })
}
