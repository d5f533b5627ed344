import 'server-only'
import { theHomeBrakes } from '@/lib/auth/home-brake'
import { hashToken } from '@/lib/auth/link-token'
import { no, ok, type Result } from '@/lib/base/result'
import { writeAudit } from '@/lib/db/audit'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addHomeAnswer, countHomeAnswers, findLinkedSheet } from '@/lib/db/home-sheets'
import type { HomeAnswerTyped } from '@/lib/forms/home-answer-form'
import { homeAnswerRow, type TakenIn } from './take-in-answer'
import type { World } from '../world'

export type LinkRefusal = 'not-open' | 'wait' | 'full'

/** What one sheet takes by its link: beyond that somebody plays with it, and a new sheet is the mend. */
const MOST_ANSWERS = 500

/**
 * Takes in an answer that came by a link. Sent twice it is kept once; one asker and one link send so many in a while, and who must
 * wait is told how many `seconds`.
 *
 * @param asker  where the request comes from, as the door before the pages says; null where nobody asks by network
 */
export async function answerByLink(
  world: World,
  token: string,
  asker: string | null,
  said: HomeAnswerTyped & { readonly key: string },
): Promise<Result<TakenIn, LinkRefusal>> {
  const tokenHash = hashToken(token)
  if (!(await findLinkedSheet(world.db, tokenHash))) return no('not-open')
  const seconds = turnOf(tokenHash, asker, world.now())
  if (seconds > 0) return no('wait', { seconds: String(seconds) })
  return inTransaction(world, async (tx) => {
    const sheet = await findLinkedSheet(tx, tokenHash)
    if (!sheet) return no('not-open')
    const { cafeId, id: homeSheetId } = sheet
    if ((await countHomeAnswers(tx, cafeId, homeSheetId)) >= MOST_ANSWERS) return no('full')
    const at = world.now()
    const row = { ...homeAnswerRow({ ...said, source: 'link' }), id: world.id(), cafeId, homeSheetId, at }
    if (!(await addHomeAnswer(tx, row))) return ok('known')
    await writeAudit(tx, {
      id: world.id(),
      cafeId,
      at,
      actor: { kind: 'machine' },
      act: 'home-answer-arrived',
      subjectKind: 'recipe',
      subjectId: sheet.recipeId,
      detail: { sheet: sheet.version },
    })
    return ok('new')
  })
}

/** One turn at both brakes, or none. @returns seconds to wait */
function turnOf(tokenHash: string, asker: string | null, now: Date): number {
  const { byAsker, byLink } = theHomeBrakes
  const own = asker === null ? 0 : byAsker.take(asker, now)
  if (own > 0) return own
  const all = byLink.take(tokenHash, now)
  if (all > 0 && asker !== null) byAsker.giveBack(asker, now)
  return all
}
