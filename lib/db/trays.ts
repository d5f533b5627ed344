import 'server-only'
import type { Db, Tx } from './engine/client'

/** Jugs and what goes in: the filling list's columns and no more. */
export async function findJugs(db: Db | Tx, cafeId: string, panelId: string) {
  return db.cup.findMany({
    where: { cafeId, panelId, jugLetter: { not: null } },
    select: { jugLetter: true, trial: { select: { name: true, number: true } } },
  })
}

/** Servings by seat with letter and code: the serving list's columns and no more. */
export async function findTrayServings(db: Db | Tx, cafeId: string, panelId: string) {
  return db.serving.findMany({
    where: { cafeId, panelId },
    select: {
      id: true,
      position: true,
      code: true,
      pouredAt: true,
      cup: { select: { jugLetter: true } },
      seat: { select: { number: true, leftAt: true } },
    },
  })
}

/** @returns the seat of each serving that is there, in an open panel */
export async function findSeatsOfServings(
  tx: Tx,
  cafeId: string,
  panelId: string,
  servingIds: readonly string[],
): Promise<readonly number[]> {
  const servings = await tx.serving.findMany({
    where: { id: { in: [...servingIds] }, cafeId, panelId, seat: { panel: { stage: 'open' } } },
    select: { seat: { select: { number: true } } },
  })
  return servings.map((serving) => serving.seat.number)
}

export async function setPoured(tx: Tx, cafeId: string, servingIds: readonly string[], at: Date | null): Promise<void> {
  await tx.serving.updateMany({ where: { cafeId, id: { in: [...servingIds] } }, data: { pouredAt: at } })
}

export async function addOpening(
  tx: Tx,
  opening: {
    readonly id: string
    readonly cafeId: string
    readonly panelId: string
    readonly userId: string
    readonly list: string
    readonly at: Date
  },
): Promise<void> {
  await tx.listOpening.create({ data: opening })
}

export async function findOpenings(db: Db | Tx, cafeId: string, panelId: string) {
  return db.listOpening.findMany({
    where: { cafeId, panelId },
    select: { id: true, userId: true, list: true, at: true },
    orderBy: { at: 'asc' },
  })
}

/** Trials of open panels whose serving list somebody has opened, by id. */
export async function findServedTrials(db: Db | Tx, cafeId: string, userId: string): Promise<readonly string[]> {
  const panels = await db.panel.findMany({
    where: { cafeId, stage: 'open', openings: { some: { userId, list: 'serving' } } },
    select: { cups: { select: { trialId: true } } },
  })
  return [...new Set(panels.flatMap(({ cups }) => cups.map(({ trialId }) => trialId)))]
}

export interface NewSeat {
  readonly id: string
  readonly number: number
  readonly cardToken: string
  readonly addedAt: Date | null
  readonly createdAt: Date
}

export interface NewSet {
  readonly id: string
  readonly seatId: string
  /** 1 is tasted first */
  readonly number: number
}

export interface NewServing {
  readonly id: string
  readonly seatId: string
  readonly cupId: string
  /** null: answered by itself */
  readonly setId: string | null
  readonly position: number
  /** how many times the cup stands at this seat by then */
  readonly pouring: number
  readonly code: string
}

export async function addSeatsAndServings(
  tx: Tx,
  cafeId: string,
  panelId: string,
  dealt: {
    readonly seats: readonly NewSeat[]
    readonly sets: readonly NewSet[]
    readonly servings: readonly NewServing[]
  },
): Promise<void> {
  const { seats, sets, servings } = dealt
  await tx.seat.createMany({ data: seats.map((seat) => ({ ...seat, cafeId, panelId })) })
  await tx.servingSet.createMany({ data: sets.map((set) => ({ ...set, cafeId, panelId })) })
  await tx.serving.createMany({ data: servings.map((serving) => ({ ...serving, cafeId, panelId })) })
}

/** What is needed to append orders to those already dealt. Never for a page. */
export async function findDealtOrders(tx: Tx, cafeId: string, panelId: string) {
  return tx.panel.findFirst({
    where: { id: panelId, cafeId, stage: 'open' },
    select: {
      kind: true,
      design: true,
      primaryTrialAId: true,
      orderSeed: true,
      cupsPerTaster: true,
      cups: { select: { id: true, design: true, trialId: true, isDuplicate: true } },
      seats: {
        select: {
          number: true,
          servings: {
            select: { position: true, code: true, cup: { select: { design: true } } },
            orderBy: { position: 'asc' },
          },
        },
        orderBy: { number: 'asc' },
      },
    },
  })
}
