import type { SeatState } from '@/lib/panel/blind'
import { button, el } from './dom'

interface Hooks {
  choose(value: number): void
}

interface AnswerField {
  readonly field: readonly Node[]
  /** what to say when "Next" is pressed too early; null: it may be pressed */
  missing(): string | null
}

/** What a question is answered with: steps to tap, a line to point at, or words to tick. */
export function answerField(state: SeatState, attribute: number, chosen: number | null, hooks: Hooks): AnswerField {
  const ask = state.asks[attribute]
  if (ask?.kind === 'steps') return steps(ask.steps, chosen, hooks, 'Tap one of the five first.')
  if (ask?.kind === 'line') return line(ask, chosen, hooks)
  if (ask?.kind === 'words') return words(ask.words, chosen, hooks)
  return steps(state.scale, chosen, hooks, 'Tap one of the nine first.')
}

/** The highest step on top; the first stands for 1. */
function steps(named: readonly string[], chosen: number | null, { choose }: Hooks, early: string): AnswerField {
  const scale = el('div', { class: 'scale', role: 'group', 'aria-labelledby': 'ask' })
  for (const { text, value } of named.map((text, i) => ({ text, value: i + 1 })).reverse()) {
    const step = button('step', text, () => {
      for (const other of scale.children) other.setAttribute('aria-pressed', String(other === step))
      choose(value)
    })
    step.setAttribute('aria-pressed', String(value === chosen))
    scale.append(step)
  }
  return { field: [scale], missing: () => (scale.querySelector('[aria-pressed=true]') ? null : early) }
}

/** Its knob hides until somebody points: one that stood in the middle would be an answer nobody gave. */
function line({ low, high }: { low: string; high: string }, chosen: number | null, { choose }: Hooks): AnswerField {
  const range = el('input', { type: 'range', min: '0', max: '100', step: '1', 'aria-labelledby': 'ask ends' })
  let given = chosen
  const show = () => {
    range.className = given === null ? 'line blank' : 'line'
    range.setAttribute('aria-valuetext', given === null ? 'not answered yet' : `${given} of 100`)
  }
  const take = () => {
    const value = Number(range.value)
    if (given === value) return
    given = value
    show()
    choose(value)
  }
  range.value = String(chosen ?? 50)
  // While a finger slides it only shows; what it is let go at is the answer. A tap in the very middle changes nothing, and is one too.
  range.addEventListener('input', () => range.classList.remove('blank'))
  range.addEventListener('change', take)
  range.addEventListener('click', take)
  show()
  const ends = el('p', { class: 'ends', id: 'ends' }, el('span', {}, low), el('span', {}, high))
  return {
    field: [el('div', { class: 'along' }, range, ends)],
    missing: () => (given === null ? 'Point at a place on the line first.' : null),
  }
}

/** Any number of them; none is an answer as well, once "None of these" or "Next" says so. */
function words(
  offered: readonly { readonly place: number; readonly word: string }[],
  chosen: number | null,
  { choose }: Hooks,
): AnswerField {
  let ticked = chosen ?? 0
  let given = chosen !== null
  const group = el('div', { class: 'scale', role: 'group', 'aria-labelledby': 'ask' })
  const none = button('step', 'None of these', () => {
    ticked = 0
    take()
  })
  const choices = offered.map(({ place, word }) => {
    const choice = button('step', word, () => {
      ticked ^= 1 << place
      take()
    })
    return { choice, place }
  })
  const show = () => {
    for (const { choice, place } of choices) choice.setAttribute('aria-pressed', String(((ticked >> place) & 1) === 1))
    none.setAttribute('aria-pressed', String(given && ticked === 0))
  }
  const take = () => {
    given = true
    show()
    choose(ticked)
  }
  show()
  group.append(...choices.map(({ choice }) => choice), none)
  return { field: [group], missing: () => (given ? null : 'Tap the words that apply, or “None of these”.') }
}
