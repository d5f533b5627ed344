import { button, el } from '../dom'
import { spelled } from '../progress'
import { codesOf } from '../sets'
import type { SetAsked, SetField } from './set-field'

/** Orders that are begun: a screen drawn anew shows what was tapped, though only a whole order is kept. */
const begun = new Map<string, { readonly over: string; readonly order: readonly number[] }>()

const NTH = ['1st', '2nd', '3rd', '4th', '5th', '6th']

/** In which order? The codes as they were tasted, one below the other; each tap gives the next place. */
export function rankField({ state, set, chosen, choose, reopen }: SetAsked): SetField {
  const codes = codesOf(state, set).map(spelled)
  const codeAt = (position: number) => codes[set.positions.indexOf(position)] ?? ''
  const at = `${state.sitting} ${set.number}`
  let over = String(chosen)
  const kept = begun.get(at)
  let order = kept?.over === over ? kept.order : (chosen ?? [])
  const left = () => set.positions.length - order.length

  const cups = set.positions.map((position) => {
    const place = el('span', { class: 'place' })
    const node = button('step', [el('b', {}, codeAt(position)), ' ', place], () => {
      const there = order.indexOf(position)
      if (there < 0) take([...order, position])
      else said.textContent = `${codeAt(position)} is ${NTH[there]} already. “Undo” takes the last tap back.`
    })
    return { position, node, place }
  })
  const said = el('p', { class: 'soft', role: 'status' })
  const show = () => {
    for (const { position, node, place } of cups) {
      const there = order.indexOf(position)
      node.setAttribute('aria-pressed', String(there >= 0))
      place.textContent = there < 0 ? '' : (NTH[there] ?? '')
    }
    for (const one of [undo, anew]) one.setAttribute('aria-disabled', String(order.length === 0))
    const last = order.at(-1)
    const words = [
      last === undefined ? '' : `${codeAt(last)} is ${NTH[order.length - 1]}. `,
      left() === 0 ? 'All are in order.' : order.length === 0 ? 'Tap the best one.' : 'Tap the next best.',
    ]
    said.textContent = words.join('')
  }
  const take = (now: readonly number[]) => {
    order = now
    show()
    if (left() > 0) {
      begun.set(at, { over, order })
      return reopen()
    }
    begun.delete(at)
    over = String(order)
    choose(order)
  }
  const undo = button('step', 'Undo last', () => order.length > 0 && take(order.slice(0, -1)))
  const anew = button('step', 'Start over', () => order.length > 0 && take([]))
  show()
  return {
    field: [
      el('div', { class: 'scale order', role: 'group', 'aria-labelledby': 'ask' }, ...cups.map(({ node }) => node)),
      said,
      el('div', { class: 'back' }, undo, anew),
    ],
    missing: () => (left() === 0 ? null : `Tap every cup first: ${left()} ${left() === 1 ? 'has' : 'have'} no place.`),
  }
}

export function sayOrder(order: readonly number[], code: (position: number) => string): string {
  return order.map((position, at) => `${NTH[at]} ${code(position)}`).join(', ')
}
