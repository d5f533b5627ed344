import { currentUserId } from '@/lib/auth/session'
import { meetMember } from '@/lib/tasks/taste/meet-member'
import { theWorld } from '@/lib/tasks/world'
import { seatTokenOf } from './cookies'

/**
 * The token of the seat that this browser holds. Whoever is signed in on it is known at that seat from here on, so that
 * the lists they open, or have opened, count there: every act of a phone asks this way.
 */
export async function holderOf(request: Request): Promise<string | null> {
  const browser = seatTokenOf(request)
  const userId = browser === null ? null : await currentUserId()
  if (browser !== null && userId !== null) await meetMember(theWorld(), browser, userId)
  return browser
}
