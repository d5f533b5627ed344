import 'server-only'
import { likeName } from '@/lib/base/like-name'
import type { Db, Tx } from './engine/client'

/** The hash of a browser whose taster has handed the phone on: it held this seat and holds it no more. */
const PASSED = 'passed:'

const heldSeat = {
  id: true,
  cafeId: true,
  panelId: true,
  number: true,
  browserSince: true,
  onPaper: true,
  memberId: true,
  barredAt: true,
  setAsideAt: true,
  movedAt: true,
  panel: { select: { stage: true, closedAt: true } },
} as const

export type HeldSeat = {
  readonly id: string
  readonly cafeId: string
  readonly panelId: string
  readonly number: number
  readonly browserSince: Date | null
  readonly onPaper: boolean
  readonly memberId: string | null
  readonly barredAt: Date | null
  readonly setAsideAt: Date | null
  readonly movedAt: Date | null
  readonly panel: { readonly stage: string; readonly closedAt: Date | null }
}

export async function findHeldSeat(db: Db | Tx, hash: string): Promise<HeldSeat | null> {
  return db.seat.findFirst({ where: { browserHash: hash }, orderBy: { browserSince: 'desc' }, select: heldSeat })
}

export async function wasPassedOn(db: Db | Tx, hash: string): Promise<boolean> {
  return (await db.seat.findFirst({ where: { browserHash: PASSED + hash }, select: { id: true } })) !== null
}

/** Since when this browser had the seat that it passed on last; null when it has passed none on. */
export async function findPassedSince(tx: Tx, hash: string): Promise<Date | null> {
  const last = await tx.seat.findFirst({
    where: { browserHash: PASSED + hash, browserSince: { not: null } },
    orderBy: { browserSince: 'desc' },
    select: { browserSince: true },
  })
  return last?.browserSince ?? null
}

/** Lets go of every seat this browser holds; the seats keep whose they were. */
export async function releaseBrowser(tx: Tx, hash: string): Promise<void> {
  await tx.seat.updateMany({ where: { browserHash: hash }, data: { browserHash: PASSED + hash } })
}

const doorPanel = {
  id: true,
  cafeId: true,
  publicTitle: true,
  stage: true,
  kind: true,
  design: true,
  sampleMl: true,
  cupsPerTaster: true,
  joinToken: true,
  cafe: { select: { name: true, allergenList: true, nameDays: true } },
  // To be counted: of a cup nothing but that it is there.
  cups: { select: { panelId: true } },
} as const

export type DoorPanel = {
  readonly id: string
  readonly cafeId: string
  readonly publicTitle: string
  readonly stage: string
  readonly kind: string
  readonly design: string | null
  readonly sampleMl: number | null
  readonly cupsPerTaster: number | null
  readonly joinToken: string
  readonly cafe: { readonly name: string; readonly allergenList: string; readonly nameDays: number | null }
  readonly cupCount: number
}

const doorSeat = {
  id: true,
  number: true,
  browserHash: true,
  takenAt: true,
  leftAt: true,
  onPaper: true,
  setAsideAt: true,
  movedAt: true,
} as const

export type DoorSeat = {
  readonly id: string
  readonly number: number
  readonly browserHash: string | null
  readonly takenAt: Date | null
  readonly leftAt: Date | null
  readonly onPaper: boolean
  readonly setAsideAt: Date | null
  readonly movedAt: Date | null
}

function counted<Panel extends { readonly cups: readonly unknown[] }>({ cups, ...panel }: Panel) {
  return { ...panel, cupCount: cups.length }
}

export async function findPanelByJoinToken(db: Db | Tx, joinToken: string): Promise<DoorPanel | null> {
  const panel = await db.panel.findUnique({ where: { joinToken }, select: doorPanel })
  return panel && counted(panel)
}

export async function findJoinToken(db: Db | Tx, panelId: string): Promise<string> {
  return (await db.panel.findUniqueOrThrow({ where: { id: panelId }, select: { joinToken: true } })).joinToken
}

export async function findPublicTitle(db: Db | Tx, panelId: string): Promise<string> {
  return (await db.panel.findUniqueOrThrow({ where: { id: panelId }, select: { publicTitle: true } })).publicTitle
}

export async function findSeatByCard(
  db: Db | Tx,
  cardToken: string,
): Promise<{ readonly panel: DoorPanel; readonly seat: DoorSeat } | null> {
  const found = await db.seat.findUnique({
    where: { cardToken },
    select: { ...doorSeat, panel: { select: doorPanel } },
  })
  if (!found) return null
  const { panel, ...seat } = found
  return { panel: counted(panel), seat }
}

/** The lowest seat that nobody used, left or answers on paper. */
export async function findFreeSeat(db: Db | Tx, panel: { cafeId: string; id: string }): Promise<DoorSeat | null> {
  return db.seat.findFirst({
    where: { cafeId: panel.cafeId, panelId: panel.id, takenAt: null, leftAt: null, onPaper: false },
    orderBy: { number: 'asc' },
    select: doorSeat,
  })
}

/** Takes a seat if it is still free; false when somebody was quicker. */
export async function claimSeat(
  tx: Tx,
  seatId: string,
  claim: {
    readonly hash: string
    readonly at: Date
    readonly repeatOfSeatId: string | null
    readonly memberId: string | null
  },
): Promise<boolean> {
  const { count } = await tx.seat.updateMany({
    where: { id: seatId, takenAt: null, leftAt: null, onPaper: false },
    data: {
      takenAt: claim.at,
      browserHash: claim.hash,
      browserSince: claim.at,
      repeatOfSeatId: claim.repeatOfSeatId,
      memberId: claim.memberId,
    },
  })
  return count === 1
}

/** @param memberId  signed in on the browser that has the seat from now on; null leaves who was known before */
export async function moveSeatTo(
  tx: Tx,
  seatId: string,
  to: { readonly hash: string; readonly at: Date; readonly memberId: string | null },
): Promise<void> {
  const { hash, at, memberId } = to
  const member = memberId === null ? {} : { memberId }
  await tx.seat.update({ where: { id: seatId }, data: { browserHash: hash, browserSince: at, movedAt: at, ...member } })
}

export async function setSeatMember(tx: Tx, seatId: string, memberId: string): Promise<void> {
  await tx.seat.update({ where: { id: seatId }, data: { memberId }, select: { id: true } })
}

const memberSeat = {
  id: true,
  cafeId: true,
  number: true,
  memberId: true,
  barredAt: true,
  servings: { select: { lockedAt: true, skippedAt: true } },
} as const

export type MemberSeat = {
  readonly id: string
  readonly cafeId: string
  readonly number: number
  readonly memberId: string | null
  readonly barredAt: Date | null
  readonly servings: readonly { readonly lockedAt: Date | null; readonly skippedAt: Date | null }[]
}

/** The seats of this panel that a member has, and the one that this browser holds. */
export async function findSeatsOf(
  db: Db | Tx,
  panel: { cafeId: string; id: string },
  memberId: string,
  hash: string | null,
): Promise<readonly MemberSeat[]> {
  const browser = hash === null ? [] : [{ browserHash: hash }]
  return db.seat.findMany({
    where: { cafeId: panel.cafeId, panelId: panel.id, OR: [{ memberId }, ...browser] },
    orderBy: { number: 'asc' },
    select: memberSeat,
  })
}

export async function findBarredSeats(db: Db | Tx, cafeId: string, panelId: string): Promise<readonly number[]> {
  const barred = await db.seat.findMany({
    where: { cafeId, panelId, barredAt: { not: null } },
    orderBy: { number: 'asc' },
    select: { number: true },
  })
  return barred.map(({ number }) => number)
}

export type BarredSeat = { readonly id: string; readonly cafeId: string; readonly number: number }

/** @returns false when the seat was closed to scoring already: the first moment stays, a graver reason replaces the first */
export async function setBarred(
  tx: Tx,
  seatId: string,
  to: { readonly barredAt: Date; readonly barredWhy: string },
): Promise<boolean> {
  const { count } = await tx.seat.updateMany({ where: { id: seatId, barredAt: null }, data: to })
  if (count === 0) await tx.seat.update({ where: { id: seatId }, data: { barredWhy: to.barredWhy } })
  return count === 1
}

const asideSeat = {
  id: true,
  cafeId: true,
  number: true,
  takenAt: true,
  setAsideAt: true,
  panel: { select: { stage: true, closedAt: true } },
} as const

/** A seat of a panel that is open, or over with its scores read. */
export async function findSeatToSetAside(db: Db | Tx, cafeId: string, panelId: string, number: number) {
  return db.seat.findFirst({
    where: { cafeId, panelId, number, panel: { stage: { in: ['open', 'closed', 'decided'] } } },
    select: asideSeat,
  })
}

/** @param to  null: taken back in */
export async function changeSetAside(
  tx: Tx,
  seatId: string,
  to: { readonly at: Date; readonly byId: string; readonly why: string } | null,
): Promise<void> {
  await tx.seat.update({
    where: { id: seatId },
    data: { setAsideAt: to?.at ?? null, setAsideById: to?.byId ?? null, setAsideWhy: to?.why ?? null },
    select: { id: true },
  })
}

/** A clock that was set back while the panel ran leaves no seat that looks set aside after its closing. */
export async function settleSetAside(tx: Tx, cafeId: string, panelId: string, closedAt: Date): Promise<void> {
  await tx.seat.updateMany({
    where: { cafeId, panelId, setAsideAt: { gt: closedAt } },
    data: { setAsideAt: closedAt },
  })
}

export async function addTaster(
  tx: Tx,
  taster: { id: string; cafeId: string; panelId: string; seatId: string; name: string; at: Date },
): Promise<void> {
  const { at, ...who } = taster
  await tx.taster.create({ data: { ...who, consentAt: at, cautionsAt: at, declaredAt: at } })
}

/** Seats of this panel that were taken by this browser or by somebody of this name, the first taken first. */
export async function findLikelyEarlierSeat(
  tx: Tx,
  panel: { cafeId: string; id: string },
  hash: string,
  name: string,
): Promise<string | null> {
  const taken = await tx.seat.findMany({
    where: { cafeId: panel.cafeId, panelId: panel.id, takenAt: { not: null } },
    orderBy: { takenAt: 'asc' },
    select: { id: true, browserHash: true, taster: { select: { name: true } } },
  })
  const alike = (other: string) => likeName(other) === likeName(name)
  const earlier = taken.find(
    (seat) =>
      seat.browserHash === hash || seat.browserHash === PASSED + hash || (seat.taster?.name && alike(seat.taster.name)),
  )
  return earlier?.id ?? null
}

/** Openings of this panel's lists by this member, and those of the ids given, whoever opened them. */
export async function findSeenLists(
  db: Db | Tx,
  panel: { cafeId: string; id: string },
  userId: string | null,
  openingIds: readonly string[],
) {
  const member = userId === null ? [] : [{ userId }]
  return db.listOpening.findMany({
    where: { cafeId: panel.cafeId, panelId: panel.id, OR: [...member, { id: { in: [...openingIds] } }] },
    select: { list: true, at: true },
  })
}

export async function unfinishedServings(db: Db | Tx, seatId: string): Promise<number> {
  return db.serving.count({ where: { seatId, lockedAt: null } })
}

/** What was begun at this seat is closed as it stands; cups never touched stay as they are. */
export async function lockBegunServings(tx: Tx, seatId: string, at: Date): Promise<number> {
  await tx.servingSet.updateMany({
    where: { seatId, lockedAt: null, answers: { some: {} } },
    data: { lockedAt: at },
  })
  const { count } = await tx.serving.updateMany({
    where: { seatId, lockedAt: null, OR: [{ scores: { some: {} } }, { set: { lockedAt: { not: null } } }] },
    data: { lockedAt: at },
  })
  return count
}
