import 'server-only'
import { findHearsBack, findHomeSheet } from '@/lib/db/home-sheets'
import { sheetToday, type HomeSheetToday } from './sheet-today'
import type { Reader, World } from '../world'

export interface HomeSheetOfHouse {
  readonly recipe: { readonly id: string; readonly name: string }
  readonly trialId: string
  readonly sheet: HomeSheetToday
  readonly withdrawnAt: Date | null
  readonly hasLink: boolean
  /** whether it may be handed on: not withdrawn, and the café gives sheets out */
  readonly givenOut: boolean
}

/** One sheet, for the house. @returns null where there is no such sheet */
export async function readHomeSheet(world: World, reader: Reader, sheetId: string): Promise<HomeSheetOfHouse | null> {
  const row = await findHomeSheet(world.db, reader.cafeId, { id: sheetId })
  const sheet = row && (await sheetToday(world, reader, row))
  if (!row || !sheet) return null
  const { recipe, trialId, withdrawnAt } = row
  const hearsBack = await findHearsBack(world.db, reader.cafeId)
  return {
    recipe,
    trialId,
    sheet,
    withdrawnAt,
    hasLink: row.tokenHash !== null && withdrawnAt === null && hearsBack,
    givenOut: withdrawnAt === null && hearsBack,
  }
}
