import 'server-only'
import type { HomeSheetRow } from '@/lib/db/home-sheets'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { readHomeSheetText, type HomeSheetContent, type HomeWarnings } from '@/lib/forms/home-sheet'
import { homeContentOf } from './home-content'
import type { Reader, World } from '../world'

/** A sheet as it was given out, with what has changed since. */
export interface HomeSheetToday {
  readonly version: number
  readonly mark: string
  readonly createdAt: Date
  readonly content: HomeSheetContent
  /** what labels say today, where that is not what the sheet says; an allergen found later must not hide behind an old sheet */
  readonly today: HomeWarnings | null
  /** the labels cannot be read again: then nothing may be called unchanged */
  readonly unreadable: boolean
  /** the house recipe of the drink is another one since */
  readonly superseded: { readonly version: number; readonly at: Date } | null
}

/** @returns null for a sheet whose text cannot be read */
export async function sheetToday(world: World, reader: Reader, row: HomeSheetRow): Promise<HomeSheetToday | null> {
  const content = readHomeSheetText(row.sheet)
  if (!content) return null
  const [now, house] = await Promise.all([
    homeContentOf(world, reader, row.trialId),
    findHouseRecipe(world.db, reader.cafeId, row.recipeId),
  ])
  const isNewer =
    content.houseVersion === null ? house && house.at > row.createdAt : house && house.version > content.houseVersion
  return {
    version: row.version,
    mark: row.mark,
    createdAt: row.createdAt,
    content,
    today: now && labelsOf(now.warnings) !== labelsOf(content.warnings) ? now.warnings : null,
    unreadable: now === null,
    superseded: house && isNewer && house.trialId !== row.trialId ? { version: house.version, at: house.at } : null,
  }
}

const labelsOf = ({ list, contains, mayContain, unread, cautions }: HomeWarnings) =>
  JSON.stringify([list, contains, mayContain, unread.toSorted(), cautions])
