import type { BlindAsk, SeatState } from '@/lib/panel/blind'
import { choiceField, sayChoice } from './choice'
import { oddScreen, type OddAsk } from './odd'
import { rankField, sayOrder } from './rank'
import type { SetAsked, SetField } from './set-field'

type SetAsk = Extract<BlindAsk, { readonly kind: 'choose' | 'rank' }> | OddAsk

/** The phone's part of a kind of panel: its question, what is tapped, and what was tapped in words. */
interface SetScreen<Ask extends SetAsk = SetAsk> {
  readonly question: string
  readonly lead: string
  field(asked: SetAsked, ask: Ask): SetField
  say(answer: readonly number[], code: (position: number) => string): string
}

/** As it stands, or as the question makes it. */
type Made<Ask extends SetAsk> = SetScreen<Ask> | { of(ask: Ask): SetScreen<Ask> }

const screens: { readonly [Kind in SetAsk['kind']]: Made<Extract<SetAsk, { readonly kind: Kind }>> } = {
  choose: {
    question: 'Which of these two do you like better?',
    lead: 'Go back to either as often as you like, with a sip of water between.',
    field: choiceField,
    say: sayChoice,
  },
  odd: { of: oddScreen },
  rank: {
    question: 'Tap the cups in order, the one you like best first.',
    lead: 'Go back to any as often as you like, with a sip of water between. Your order is kept once every cup has a place.',
    field: rankField,
    say: sayOrder,
  },
}

/** @returns null for a question about one cup */
export function findSetAsk(state: Pick<SeatState, 'asks'>): { ask: SetAsk; screen: SetScreen } | null {
  const ask = state.asks.find((one): one is SetAsk => one.kind in screens)
  if (!ask) return null
  const made: Made<SetAsk> = screens[ask.kind]
  return { ask, screen: 'of' in made ? made.of(ask) : made }
}
