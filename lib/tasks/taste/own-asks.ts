import 'server-only'
import { createHash } from 'node:crypto'
import type { BlindAsk } from '@/lib/panel/blind'
import { askOf } from '@/lib/panel/kinds/kinds'
import type { QuestionColumns } from '@/lib/panel/question'
import { seededRandom } from '@/lib/stats/random'

/** How each question is asked at this seat, on its phone and on its ballot: words in an order of the seat's own. */
export function ownAsks(
  seatId: string,
  attributes: readonly (QuestionColumns & { readonly id: string })[],
): BlindAsk[] {
  return attributes.map((one) => askOf(one, (words) => ownOrder(seatId, one.id).shuffle(words)))
}

/** Chance that is the same whenever this seat asks for this question, and says nothing of its cups. */
function ownOrder(seatId: string, attributeId: string) {
  return seededRandom(createHash('sha256').update(`${seatId} ${attributeId}`).digest().readUInt32LE())
}
