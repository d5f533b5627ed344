import 'server-only'
import { hashToken } from '@/lib/auth/link-token'
import { requireCafe } from '@/lib/db/cafes'
import { findLinkedSheet } from '@/lib/db/home-sheets'
import { findNameDays } from '@/lib/db/privacy'
import { sheetToday, type HomeSheetToday } from './sheet-today'
import type { World } from '../world'

export interface LinkedSheet {
  readonly sheet: HomeSheetToday
  readonly zone: string
  /** days until a name goes by itself; 0: when asked; null: the café has not chosen */
  readonly nameDays: number | null
}

/** What a link shows to whoever holds it. @returns null where it was withdrawn or never was: nobody is told which */
export async function readHomeLink(world: World, token: string): Promise<LinkedSheet | null> {
  const row = await findLinkedSheet(world.db, hashToken(token))
  if (!row) return null
  const cafe = await requireCafe(world.db, row.cafeId)
  const nobody = { userId: '', cafeId: row.cafeId, cafe }
  const sheet = await sheetToday(world, nobody, row)
  return sheet && { sheet, zone: cafe.timeZone, nameDays: await findNameDays(world.db, row.cafeId) }
}
