import type { BlindAsk } from '@/lib/panel/blind'
import { button, el } from '../dom'
import { spelled } from '../progress'
import { codesOf } from '../sets'
import type { SetAsked, SetField } from './set-field'

type ChooseAsk = Extract<BlindAsk, { readonly kind: 'choose' }>

/** Two cups, which one? Their codes as two large buttons, the one tasted first on the left. */
export function choiceField({ state, set, chosen, choose }: SetAsked, ask: ChooseAsk): SetField {
  const codes = codesOf(state, set)
  const group = el('div', { class: 'two', role: 'group', 'aria-labelledby': 'ask' })
  let said = chosen === null ? null : String(chosen)
  const choice = (look: string, words: string | Node[], answer: readonly number[]) => {
    const node = button(look, words, () => {
      said = String(answer)
      for (const other of group.children) other.setAttribute('aria-pressed', String(other === node))
      choose(answer)
    })
    node.setAttribute('aria-pressed', String(said === String(answer)))
    group.append(node)
  }
  set.positions.forEach((position, at) => choice('step big', [el('b', {}, spelled(codes[at] ?? ''))], [position]))
  if (ask.none) choice('step', 'No preference', [])
  return { field: [group], missing: () => (said === null ? 'Tap one of them first.' : null) }
}

export function sayChoice([position]: readonly number[], code: (position: number) => string): string {
  return position === undefined ? 'no preference' : `preferred ${code(position)}`
}
