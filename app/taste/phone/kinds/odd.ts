import type { BlindAsk } from '@/lib/panel/blind'
import { button, el } from '../dom'
import { spelled } from '../progress'
import { codesOf } from '../sets'
import type { SetAsked, SetField } from './set-field'

export type OddAsk = Extract<BlindAsk, { readonly kind: 'odd' }>

const GUESS = 'Not sure? Guess: one has to be chosen, and a guess is an answer.'

/** What is asked, how to go about it, and an answer in words. */
function wordsOf({ protocol, property }: OddAsk): { question: string; lead: string; said: string } {
  switch (protocol) {
    case 'triangle':
      return {
        question: 'Which one is different?',
        lead: 'Two of these three are the same. Tap the one that is different.',
        said: 'different is',
      }
    case 'duo-trio':
      return {
        question: 'Which one is the same as the reference?',
        lead: 'One of the two is the same as the reference. Tap it.',
        said: 'same as the reference is',
      }
    case 'tetrad':
      return {
        question: 'Which two are the same?',
        lead: 'Two of these are one drink, the other two another. Tap two that are the same.',
        said: 'the same are',
      }
    default:
      return {
        question: `Which one is ${property}?`,
        lead:
          protocol === 'three-afc'
            ? `Two of these three are the same, one is ${property}. Tap it.`
            : `Tap the one that is ${property}.`,
        said: `${property} is`,
      }
  }
}

/** Can they be told apart? Codes as large buttons in the order of tasting; a reference stands above and is no answer. */
export function oddScreen(ask: OddAsk) {
  const { question, lead, said } = wordsOf(ask)
  return {
    question,
    lead: `Taste ${ask.protocol === 'tetrad' ? 'row by row, ' : ''}from left to right, again as often as you like, with a sip of water between. ${GUESS}`,
    field: (asked: SetAsked) => oddField(asked, ask, el('p', { class: 'lead' }, lead)),
    say: (answer: readonly number[], code: (position: number) => string) => `${said} ${answer.map(code).join(' and ')}`,
  }
}

function oddField({ state, set, chosen, choose }: SetAsked, { protocol }: OddAsk, how: HTMLElement): SetField {
  const codes = codesOf(state, set).map(spelled)
  const [wanted, most] = protocol === 'tetrad' ? [2, 'Tap two of them first.'] : [1, 'Tap one of them first.']
  let picked = [...(chosen ?? [])]
  const hasReference = protocol === 'duo-trio'
  // four stand two by two: three and one would look as if one were apart
  const group = el('div', {
    class: protocol === 'tetrad' ? 'two' : 'two some',
    role: 'group',
    'aria-labelledby': 'ask',
  })
  const nodes = new Map<number, HTMLElement>()
  const show = () => nodes.forEach((node, at) => node.setAttribute('aria-pressed', String(picked.includes(at))))
  set.positions.forEach((position, at) => {
    if (hasReference && at === 0) return
    const node = button('step big', [el('b', {}, codes[at] ?? '')], () => {
      // one more than wanted: the one tapped first goes
      if (!picked.includes(position)) picked = [...picked, position].slice(-wanted)
      else if (wanted > 1) picked = picked.filter((one) => one !== position)
      show()
      if (picked.length === wanted) choose([...picked].sort((a, b) => a - b))
    })
    nodes.set(position, node)
    group.append(node)
  })
  show()
  const reference = el(
    'p',
    { class: 'slip' },
    el('span', {}, 'Reference'),
    el('b', { class: 'digits' }, codes[0] ?? ''),
  )
  return {
    field: hasReference ? [how, reference, group] : [how, group],
    missing: () => (picked.length === wanted ? null : most),
  }
}
