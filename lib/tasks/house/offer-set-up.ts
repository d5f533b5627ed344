import 'server-only'
import { hashToken } from '@/lib/auth/link-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addLink, voidLinksOfKind } from '@/lib/db/links'
import { countUsers } from '@/lib/db/people'
import type { World } from '../world'

const OFFER_DAYS = 30

/**
 * Makes the link with which the first owner sets up the house, as long as nobody has an account. Links offered before
 * stop working. @returns its token, or null once the house is set up
 */
export async function offerSetUp(world: World): Promise<string | null> {
  const token = world.token()
  return inTransaction(world, async (tx) => {
    const now = world.now()
    await voidLinksOfKind(tx, 'setup', now)
    if ((await countUsers(tx)) > 0) return null
    await addLink(tx, {
      id: world.id(),
      kind: 'setup',
      tokenHash: hashToken(token),
      cafeId: null,
      role: null,
      email: null,
      createdAt: now,
      expiresAt: new Date(now.getTime() + OFFER_DAYS * 24 * 3_600_000),
    })
    return token
  })
}
