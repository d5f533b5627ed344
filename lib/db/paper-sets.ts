import 'server-only'
import type { Db, Tx } from './engine/client'

/** The sets of one seat with their codes, and whose the answers are. Neither cup nor letter, and nothing of what was said. */
export async function findSetsOnPaper(db: Db | Tx, seatId: string) {
  return db.servingSet.findMany({
    where: { seatId },
    orderBy: { number: 'asc' },
    select: {
      id: true,
      number: true,
      lockedAt: true,
      skippedAt: true,
      skipReason: true,
      skipSource: true,
      answers: { select: { source: true } },
      servings: { orderBy: { code: 'asc' }, select: { id: true, code: true, position: true } },
    },
  })
}

/** What a sheet of paper said of these sets. */
export async function findPaperSetAnswers(db: Db | Tx, setIds: readonly string[]) {
  return db.setAnswer.findMany({
    where: { setId: { in: [...setIds] }, source: 'paper' },
    select: {
      id: true,
      setId: true,
      attributeId: true,
      answer: true,
      revision: true,
      key: true,
      enteredById: true,
      at: true,
    },
  })
}

/** @param answerId  of an answer that a sheet gave */
export async function dropPaperSetAnswer(tx: Tx, answerId: string): Promise<void> {
  await tx.setAnswer.delete({ where: { id: answerId, source: 'paper' }, select: { id: true } })
}

/** What stood before a correction: kept for ever, never counted. */
export async function keepReplacedSetAnswer(
  tx: Tx,
  row: {
    readonly id: string
    readonly cafeId: string
    readonly setId: string
    readonly attributeId: string
    readonly answer: string
    readonly revision: number
    readonly key: string
    readonly enteredById: string | null
    readonly at: Date
    readonly uncountedAt: Date
    readonly uncountedById: string
  },
): Promise<void> {
  await tx.uncountedAnswer.create({ data: { ...row, why: 'replaced', source: 'paper' }, select: { id: true } })
}

/** The highest revision that ever stood at this set for this question and was replaced; 0 if none was. */
export async function lastReplacedSetRevision(tx: Tx, setId: string, attributeId: string): Promise<number> {
  const last = await tx.uncountedAnswer.findFirst({
    where: { setId, attributeId, why: 'replaced' },
    orderBy: { revision: 'desc' },
    select: { revision: true },
  })
  return last?.revision ?? 0
}
