import type { BlindAsk, SeatState } from '@/lib/panel/blind'
import { choiceField, sayChoice } from './choice'
import type { SetAsked, SetField } from './set-field'

type SetAsk = Extract<BlindAsk, { readonly kind: 'choose' }>

/** The phone's part of a kind of panel: its question, what is tapped, and what was tapped in words. */
interface SetScreen {
  readonly question: string
  readonly lead: string
  field(asked: SetAsked, ask: SetAsk): SetField
  say(answer: readonly number[], code: (position: number) => string): string
}

const screens: { readonly [Kind in SetAsk['kind']]: SetScreen } = {
  choose: {
    question: 'Which of these two do you like better?',
    lead: 'Go back to either as often as you like, with a sip of water between.',
    field: choiceField,
    say: sayChoice,
  },
}

/** @returns null for a question about one cup */
export function findSetAsk(state: Pick<SeatState, 'asks'>): { ask: SetAsk; screen: SetScreen } | null {
  const ask = state.asks.find((one): one is SetAsk => one.kind in screens)
  return ask ? { ask, screen: screens[ask.kind] } : null
}
