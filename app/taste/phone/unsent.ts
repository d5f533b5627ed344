import type { SeatState } from '@/lib/panel/blind'
import { markOf, type Parcel } from './parcel'
import { spelled } from './progress'
import { SKIP_WORDS } from './words'

/**
 * What a taster said that never reached the café's computer, in words to be copied by hand: of answers that replaced one
 * another the last. Marks that a cup was seen or done are no answers.
 */
export function unsentLines(
  { attributes, scale }: Pick<SeatState, 'attributes' | 'scale'>,
  parcels: readonly Parcel[],
): readonly string[] {
  const last = new Map(parcels.map(({ message }) => [markOf(message), message]))
  return [...last.values()].flatMap((message) => {
    const cup = `Cup ${spelled(message.code)}`
    if (!('act' in message)) {
      return [`${cup}, ${attributes[message.attribute] ?? ''}: ${scale[message.value - 1] ?? ''} (${message.value})`]
    }
    if (message.act === 'skip') return [`${cup}, skipped: ${SKIP_WORDS[message.reason]}`]
    return message.act === 'comment' && message.comment !== '' ? [`${cup}, comment: “${message.comment}”`] : []
  })
}
