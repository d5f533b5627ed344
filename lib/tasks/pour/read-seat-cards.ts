import 'server-only'
import { findPanel, findTokens } from '@/lib/db/panels'
import type { Actor, World } from '../world'

export interface SeatCards {
  readonly title: string
  readonly publicTitle: string
  readonly joinToken: string
  readonly cards: readonly { readonly number: number; readonly token: string }[]
}

/** What the printed cards carry. @returns null unless the panel is open: before that there are no seats */
export async function readSeatCards(world: World, actor: Actor, panelId: string): Promise<SeatCards | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  const tokens = await findTokens(world.db, actor.cafeId, panelId)
  if (!panel || !tokens) return null
  return {
    title: panel.title,
    publicTitle: panel.publicTitle,
    joinToken: tokens.joinToken,
    cards: tokens.seats.map(({ number, cardToken }) => ({ number, token: cardToken })),
  }
}
