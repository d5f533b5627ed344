import type { SeatState } from '@/lib/panel/blind'
import { markOf, type Parcel } from './parcel'
import { spelled } from './progress'
import { sayAnswer, SKIP_WORDS } from './words'

/**
 * What a taster said that never reached the café's computer, in words to be copied by hand: of answers that replaced one
 * another the last. Marks that a cup was seen or done are no answers.
 */
export function unsentLines(
  state: Pick<SeatState, 'attributes' | 'asks' | 'scale'>,
  parcels: readonly Parcel[],
): readonly string[] {
  const last = new Map(parcels.map(({ message }) => [markOf(message), message]))
  return [...last.values()].flatMap((message) => {
    const cup = `Cup ${spelled(message.code)}`
    if (!('act' in message)) {
      const { attribute, value } = message
      return [`${cup}, ${state.attributes[attribute] ?? ''}: ${sayAnswer(state, attribute, value)}`]
    }
    if (message.act === 'skip') return [`${cup}, skipped: ${SKIP_WORDS[message.reason]}`]
    return message.act === 'comment' && message.comment !== '' ? [`${cup}, comment: “${message.comment}”`] : []
  })
}
