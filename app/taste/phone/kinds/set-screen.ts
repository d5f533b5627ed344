import type { BlindAsk, SeatState } from '@/lib/panel/blind'
import { choiceField, sayChoice } from './choice'
import { oddScreen, type OddAsk } from './odd'
import type { SetAsked, SetField } from './set-field'

type SetAsk = Extract<BlindAsk, { readonly kind: 'choose' }> | OddAsk

/** The phone's part of a kind of panel: its question, what is tapped, and what was tapped in words. */
interface SetScreen {
  readonly question: string
  readonly lead: string
  field(asked: SetAsked, ask: SetAsk): SetField
  say(answer: readonly number[], code: (position: number) => string): string
}

/** As it stands, or as the question makes it. */
type Made = SetScreen | { of(ask: SetAsk): SetScreen }

const screens: { readonly [Kind in SetAsk['kind']]: Made } = {
  choose: {
    question: 'Which of these two do you like better?',
    lead: 'Go back to either as often as you like, with a sip of water between.',
    field: choiceField,
    say: sayChoice,
  },
  odd: { of: oddScreen },
}

/** @returns null for a question about one cup */
export function findSetAsk(state: Pick<SeatState, 'asks'>): { ask: SetAsk; screen: SetScreen } | null {
  const ask = state.asks.find((one): one is SetAsk => one.kind in screens)
  if (!ask) return null
  const made = screens[ask.kind]
  return { ask, screen: 'of' in made ? made.of(ask) : made }
}
