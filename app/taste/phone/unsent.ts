import type { SeatState } from '@/lib/panel/blind'
import { markOf, type Parcel } from './parcel'
import { spelled } from './progress'
import { findSetAsk } from './kinds/set-screen'
import { andAll, codesOf } from './sets'
import { sayAnswer, SKIP_WORDS } from './words'

/**
 * What a taster said that never reached the café's computer, in words to be copied by hand: of answers that replaced one
 * another the last. Marks that a cup was seen or done are no answers.
 */
export function unsentLines(
  state: Pick<SeatState, 'attributes' | 'asks' | 'scale'> & Partial<Pick<SeatState, 'cups' | 'sets'>>,
  parcels: readonly Parcel[],
): readonly string[] {
  const last = new Map(parcels.map(({ message }) => [markOf(message), message]))
  return [...last.values()].flatMap((message) => {
    if ('set' in message) return setLine(state, message)
    const cup = `Cup ${spelled(message.code)}`
    if (!('act' in message)) {
      const { attribute, value } = message
      return [`${cup}, ${state.attributes[attribute] ?? ''}: ${sayAnswer(state, attribute, value)}`]
    }
    if (message.act === 'skip') return [`${cup}, skipped: ${SKIP_WORDS[message.reason]}`]
    return message.act === 'comment' && message.comment !== '' ? [`${cup}, comment: “${message.comment}”`] : []
  })
}

function setLine(
  { asks, cups = [], sets }: Pick<SeatState, 'asks'> & Partial<Pick<SeatState, 'cups' | 'sets'>>,
  message: Extract<Parcel['message'], { readonly set: number }>,
): string[] {
  const set = sets?.find(({ number }) => number === message.set)
  const names = set ? andAll(codesOf({ cups }, set).map(spelled)) : ''
  if (message.act === 'skip') return [`Cups ${names}, skipped: ${SKIP_WORDS[message.reason]}`]
  if (message.act === 'lock') return []
  const codeOf = (at: number) => spelled(cups.find(({ position }) => position === at)?.code ?? '')
  return [`Cups ${names}: ${findSetAsk({ asks })?.screen.say(message.answer, codeOf) ?? ''}`]
}
