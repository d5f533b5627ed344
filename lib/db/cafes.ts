import 'server-only'
import type { Db, Tx } from './engine/client'

export interface CafeFacts {
  readonly name: string
  readonly currency: string
  readonly currencyDigits: number
  readonly timeZone: string
  readonly allergenList: string
}

export async function addCafe(
  tx: Tx,
  cafe: CafeFacts & { id: string; nameDays: number; isDemo: boolean; createdAt: Date },
): Promise<void> {
  await tx.cafe.create({ data: cafe })
}

/** A café's facts as they stand now. @throws when there is no such café: whoever asks has been let in by it */
export async function requireCafe(db: Db | Tx, id: string): Promise<CafeFacts> {
  return db.cafe.findUniqueOrThrow({
    where: { id },
    select: { name: true, currency: true, currencyDigits: true, timeZone: true, allergenList: true },
  })
}

const scales = { doseScaleName: true, doseScaleMg: true, pourScaleName: true, pourScaleMg: true } as const

/** What the house weighs on, as far as it was said. */
export type HouseScales = Awaited<ReturnType<typeof findHouseScales>>

export async function findHouseScales(db: Db | Tx, id: string) {
  return db.cafe.findUniqueOrThrow({ where: { id }, select: scales })
}

export async function setHouseScales(tx: Tx, id: string, said: HouseScales): Promise<void> {
  await tx.cafe.update({ where: { id }, data: said })
}

export async function changeCafeFacts(tx: Tx, id: string, facts: CafeFacts): Promise<void> {
  await tx.cafe.update({ where: { id }, data: facts })
}
