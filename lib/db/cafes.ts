import 'server-only'
import type { Tx } from './client'

export interface CafeFacts {
  readonly name: string
  readonly currency: string
  readonly currencyDigits: number
  readonly timeZone: string
  readonly allergenList: string
}

export async function addCafe(
  tx: Tx,
  cafe: CafeFacts & { id: string; isDemo: boolean; createdAt: Date },
): Promise<void> {
  await tx.cafe.create({ data: cafe })
}

export async function changeCafeFacts(tx: Tx, id: string, facts: CafeFacts): Promise<void> {
  await tx.cafe.update({ where: { id }, data: facts })
}
