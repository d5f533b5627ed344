import 'server-only'
import { requireCafe } from '@/lib/db/cafes'
import type { Cautions } from '../plan/panel-cautions'
import { readPanel } from '../plan/read-panel'
import type { Reader, World } from '../world'
import { readSeatCards } from './read-seat-cards'

/** What stands where people come in. */
export interface Sign {
  readonly title: string
  /** as tasters know it */
  readonly publicTitle: string
  readonly cafe: string
  readonly joinToken: string
  readonly cautions: Cautions
}

/** @returns null unless the panel is open */
export async function readSign(world: World, reader: Reader, panelId: string): Promise<Sign | null> {
  const cards = await readSeatCards(world, reader, panelId)
  if (!cards) return null
  const [plan, cafe] = await Promise.all([readPanel(world, reader, panelId), requireCafe(world.db, reader.cafeId)])
  if (!plan) return null
  const { title, publicTitle, joinToken } = cards
  return { title, publicTitle, cafe: cafe.name, joinToken, cautions: plan.cautions }
}
