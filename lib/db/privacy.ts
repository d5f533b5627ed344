import 'server-only'
import type { Db, Tx } from './engine/client'

/** Ids go to the database in portions: a statement takes 32 766 values at most. */
const portion = 500

function portions<One>(all: readonly One[]): readonly (readonly One[])[] {
  return Array.from({ length: Math.ceil(all.length / portion) }, (_, at) => all.slice(at * portion, (at + 1) * portion))
}

export async function findNameDays(db: Db | Tx, cafeId: string): Promise<number | null> {
  return (await db.cafe.findUniqueOrThrow({ where: { id: cafeId }, select: { nameDays: true } })).nameDays
}

export async function setNameDays(tx: Tx, cafeId: string, nameDays: number): Promise<void> {
  await tx.cafe.update({ where: { id: cafeId }, data: { nameDays } })
}

export async function findCafesWithNameDays(db: Db | Tx) {
  return db.cafe.findMany({ select: { id: true, nameDays: true } })
}

/** Tasters of a café who still have a name and took their seat before a moment. */
export async function findNamesBefore(db: Db | Tx, cafeId: string, before: Date): Promise<readonly string[]> {
  const due = await db.taster.findMany({
    where: { cafeId, name: { not: null }, consentAt: { lt: before } },
    select: { id: true },
  })
  return due.map(({ id }) => id)
}

/** Those of the ids that still have a name, or words where words are to go. */
export async function findStillKept(db: Db | Tx, ids: readonly string[], words: boolean): Promise<readonly string[]> {
  const kept: string[] = []
  for (const part of portions(ids)) {
    const written = { OR: [{ comment: { not: null } }, { replaced: { some: { comment: { not: null } } } }] }
    const found = await db.taster.findMany({
      where: {
        id: { in: [...part] },
        OR: [{ name: { not: null } }, ...(words ? [{ seat: { servings: { some: written } } }] : [])],
      },
      select: { id: true },
    })
    kept.push(...found.map(({ id }) => id))
  }
  return kept
}

export async function takeNamesOut(tx: Tx, ids: readonly string[], at: Date): Promise<void> {
  for (const part of portions(ids))
    await tx.taster.updateMany({ where: { id: { in: [...part] } }, data: { name: null, forgottenAt: at } })
}

/** Comments may hold anything, names too. The scores beside them stay. */
export async function takeWordsOut(tx: Tx, ids: readonly string[]): Promise<void> {
  for (const part of portions(ids)) {
    const of = { seat: { taster: { id: { in: [...part] } } } }
    await tx.replacedAnswer.updateMany({ where: { serving: of, comment: { not: null } }, data: { comment: null } })
    await tx.serving.updateMany({ where: { ...of, comment: { not: null } }, data: { comment: null } })
  }
}

/**
 * What ties a seat to a phone or to a member of the team goes with the name, once the panel is over: while it is open, it keeps
 * the seat and says who knows too much to taste.
 */
export async function loosenForgottenSeats(tx: Tx): Promise<void> {
  await tx.seat.updateMany({
    where: {
      taster: { forgottenAt: { not: null } },
      panel: { stage: { not: 'open' } },
      OR: [{ browserHash: { not: null } }, { memberId: { not: null } }],
    },
    data: { browserHash: null, memberId: null },
  })
}

/** Whom an invitation was for, and whose reset link it was, once the link opens nothing any more. */
export async function clearDeadLinks(tx: Tx, now: Date): Promise<void> {
  await tx.oneTimeLink.updateMany({
    where: {
      email: { not: null },
      OR: [{ usedAt: { not: null } }, { voidedAt: { not: null } }, { expiresAt: { lte: now } }],
    },
    data: { email: null },
  })
}

/** The longest that any café wants a name kept; null while one has not chosen, or keeps them until asked. */
export async function findLongestNameDays(db: Db | Tx): Promise<number | null> {
  const days = (await db.cafe.findMany({ select: { nameDays: true } })).map(({ nameDays }) => nameDays ?? 0)
  return days.length > 0 && days.every((one) => one > 0) ? Math.max(...days) : null
}

export interface SeatedTaster {
  readonly tasterId: string
  readonly seat: number
  readonly name: string | null
  readonly forgottenAt: Date | null
}

export async function findSeatedTasters(
  db: Db | Tx,
  cafeId: string,
  panelId: string,
): Promise<readonly SeatedTaster[]> {
  const tasters = await db.taster.findMany({
    where: { cafeId, panelId },
    orderBy: { seat: { number: 'asc' } },
    select: { id: true, name: true, forgottenAt: true, seat: { select: { number: true } } },
  })
  return tasters.map(({ id, seat, ...taster }) => ({ tasterId: id, seat: seat.number, ...taster }))
}

const keptSeat = {
  id: true,
  cafeId: true,
  panelId: true,
  number: true,
  takenAt: true,
  leftAt: true,
  onPaper: true,
  browserHash: true,
  browserSince: true,
  memberId: true,
  panel: {
    select: {
      publicTitle: true,
      stage: true,
      attributes: { orderBy: { position: 'asc' } },
      cafe: { select: { nameDays: true, timeZone: true } },
    },
  },
  taster: true,
  servings: {
    orderBy: { position: 'asc' },
    select: {
      position: true,
      code: true,
      comment: true,
      skipReason: true,
      skippedAt: true,
      lockedAt: true,
      scores: { select: { attributeId: true, value: true, at: true } },
      replaced: { select: { attributeId: true, value: true, comment: true, skipReason: true, replacedAt: true } },
      late: { select: { attributeId: true, value: true, at: true } },
      set: {
        select: {
          answers: { select: { attributeId: true, answer: true, at: true } },
          uncounted: { select: { attributeId: true, answer: true } },
        },
      },
    },
  },
} as const

/** Everything that is kept of one seat: by its card, by its number, or by its id. */
export async function findKeptSeat(
  db: Db | Tx,
  where: { readonly cardToken: string } | { readonly id: string } | { cafeId: string; panelId: string; number: number },
) {
  return db.seat.findFirst({ where, select: keptSeat })
}

export interface Leaver {
  readonly userId: string
  readonly name: string
  readonly email: string
  readonly leftAt: Date
}

/** Who left the team and is not forgotten. */
export async function findLeavers(db: Db | Tx, cafeId: string): Promise<readonly Leaver[]> {
  const left = await db.membership.findMany({
    where: {
      cafeId,
      removedAt: { not: null },
      user: { forgottenAt: null, memberships: { every: { removedAt: { not: null } } } },
    },
    orderBy: { removedAt: 'desc' },
    select: { removedAt: true, user: { select: { id: true, name: true, email: true } } },
  })
  return left.flatMap(({ removedAt, user }) =>
    removedAt ? [{ userId: user.id, name: user.name, email: user.email, leftAt: removedAt }] : [],
  )
}

/** Takes name, address and password of a person out; their id stays in the lines of what they did. */
export async function forgetUser(tx: Tx, userId: string, at: Date): Promise<boolean> {
  const { count } = await tx.user.updateMany({
    where: { id: userId, forgottenAt: null },
    data: { name: '', email: `forgotten ${userId}`, passwordHash: '', forgottenAt: at },
  })
  return count === 1
}

/** Brings everything that was written into the file itself, so that nothing older stands in the log beside it. */
export async function settleLog(db: Db): Promise<void> {
  await db.$executeRawUnsafe('PRAGMA wal_checkpoint(TRUNCATE)')
}
