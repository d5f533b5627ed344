import type { SeatState } from '@/lib/panel/blind'
import { COMMENT_LENGTH, type SkipReason } from './limits'
import { button, el } from './dom'
import { spelled, type Place } from './progress'
import { answerField } from './answer-field'
import { findSetAsk } from './kinds/set-screen'
import { andAll, codesOf, setOf } from './sets'
import { question, SKIP_WORDS } from './words'

/** What is drawn: heading and words above, the answer in the middle, what to press within the thumb's reach. */
export type Screen = {
  readonly where: readonly (Node | string)[]
  readonly ask: readonly Node[]
  readonly stage: readonly Node[]
  readonly press: readonly Node[]
}

/** What a taster can do; the screens know nothing of how it is kept or sent. */
export type Acts = {
  start(): void
  codeSeen(): void
  choose(value: number): void
  chooseOfSet(answer: readonly number[]): void
  lockSet(): void
  next(): void
  aside(what: Aside): void
  skip(reason: SkipReason): void
  type(comment: string): void
  passOn(): void
  tell(words: string): void
}

/** A side step that leaves the place where it is. */
export type Aside = 'none' | 'wrong-code' | 'skip' | 'pass-on'

export function screenOf(state: SeatState, place: Place, aside: Aside, draft: string, acts: Acts): Screen {
  if (aside === 'pass-on') return passOnScreen(state, acts)
  if (place.kind === 'welcome') return welcomeScreen(state, acts)
  if (place.kind === 'thanks' || place.kind === 'closed') return endScreen(state, place.kind === 'closed', acts)
  if (place.kind === 'set') {
    return aside === 'skip' ? skipScreen(state, { set: place.set }, acts) : setScreen(state, place.set, acts)
  }
  const code = state.cups[place.cup]?.code ?? ''
  if (aside === 'skip') return skipScreen(state, place, acts)
  if (aside === 'wrong-code') return wrongCodeScreen(state, place.cup, code, acts)
  if (place.kind === 'code') return codeScreen(state, place.cup, code, acts)
  if (place.kind === 'comment') return commentScreen(state, place.cup, code, draft, acts)
  return answerScreen(state, place.cup, code, place.attribute, acts)
}

function heading(...words: (Node | string)[]): HTMLElement {
  return el('h1', { tabindex: '-1' }, ...words)
}

function para(words: string, look = ''): HTMLElement {
  return el('p', look ? { class: look } : {}, words)
}

function where(state: SeatState, cup: number, code: string | null): (Node | string)[] {
  const place = `Cup ${cup + 1} of ${state.cups.length}`
  return code === null
    ? [el('span', {}, place)]
    : [el('span', {}, place, el('span', { class: 'unseen' }, ', code '), el('b', { class: 'code' }, spelled(code)))]
}

function skipButton(state: SeatState, acts: Acts, look = 'quiet'): HTMLElement {
  return button(look, state.sets ? 'Skip these cups' : 'Skip this cup', () => acts.aside('skip'))
}

function welcomeScreen(state: SeatState, acts: Acts): Screen {
  const { seat, cups } = state
  return {
    where: [state.title],
    ask: [heading(`Seat ${seat}`)],
    stage: [
      para(`Show this to whoever serves: tray ${seat} is yours.`, 'lead'),
      el(
        'ol',
        {},
        el('li', {}, `Your tray holds ${cups.length} cups, each with three digits on it.`),
        el('li', {}, 'Taste one at a time, in the order shown here. The order is not the same at every seat.'),
        el('li', {}, 'A sip of water first, and again before each cup. Swallow or spit, as you like.'),
      ),
    ],
    press: [button('main', 'My tray is here', acts.start)],
  }
}

function codeScreen(state: SeatState, cup: number, code: string, acts: Acts): Screen {
  return {
    where: [...where(state, cup, null), skipButton(state, acts)],
    ask: [heading('Take the cup that says'), el('p', { class: 'slip digits' }, spelled(code))],
    stage: [para(beforeTasting(state, cup), 'lead')],
    press: [
      button('main', `My cup says ${spelled(code)}`, acts.codeSeen),
      button('plain', 'It doesn’t', () => acts.aside('wrong-code')),
    ],
  }
}

const REST = 'a sip of water, and half a minute without tasting.'

/** In a set nothing is asked between two cups, so that it has to be said that the one before is tasted first. */
function beforeTasting(state: SeatState, cup: number): string {
  const positions = setOf(state, cup)?.positions ?? []
  const before = state.cups[cup - 1]
  const ask = findSetAsk(state)?.ask
  if (ask?.kind === 'odd' && ask.protocol === 'duo-trio' && state.cups[cup]?.position === positions[0])
    return `This one is the reference. ${before ? `First rest: ${REST}` : 'Drink a sip of water before you taste.'}`
  if (!before) return 'Drink a sip of water before you taste.'
  return positions.includes(before.position)
    ? `Taste ${spelled(before.code)} first. Then rest: ${REST}`
    : `First rest: ${REST}`
}

function setScreen(state: SeatState, at: number, acts: Acts): Screen {
  const set = state.sets?.[at]
  const asked = findSetAsk(state)
  if (!set || !asked) return endScreen(state, false, acts)
  const { ask, screen } = asked
  const title = heading(screen.question)
  title.id = 'ask'
  const chosen = set.answers[0]?.answer ?? null
  const { field, missing } = screen.field(
    {
      ...{ state, set, chosen },
      choose(answer) {
        acts.chooseOfSet(answer)
        next.removeAttribute('aria-disabled')
      },
      reopen: () => next.setAttribute('aria-disabled', 'true'),
    },
    ask,
  )
  const isLast = !state.sets?.some((other) => other !== set && !other.locked)
  const next = button('main', isLast ? 'Next, and finish' : 'Next', () => {
    const words = missing()
    if (words === null) acts.lockSet()
    else acts.tell(words)
  })
  if (missing() !== null) next.setAttribute('aria-disabled', 'true')
  return {
    where: [
      el('span', {}, `${whichSet(state, at)}${set.positions.length} cups, tasted in this order`),
      skipButton(state, acts),
    ],
    ask: [title],
    stage: [...field, para(`${screen.lead} After “Next” your answer stays as it is.`, 'soft')],
    press: [next],
  }
}

/** Where a seat has several sets, which of them. */
function whichSet({ sets = [] }: SeatState, at: number): string {
  return sets.length > 1 ? `Set ${at + 1} of ${sets.length}: ` : ''
}

function wrongCodeScreen(state: SeatState, cup: number, code: string, acts: Acts): Screen {
  return {
    where: where(state, cup, null),
    ask: [heading('Do not taste it yet')],
    stage: [
      para('Look whether another cup on your tray has these digits. If none has, show this to whoever serves:', 'lead'),
      el(
        'p',
        { class: 'slip' },
        el('span', {}, `Seat ${state.seat}, cup ${cup + 1}`),
        el('b', { class: 'digits' }, spelled(code)),
      ),
    ],
    press: [button('main', `Now it says ${spelled(code)}`, acts.codeSeen), skipButton(state, acts, 'plain')],
  }
}

function answerScreen(state: SeatState, cup: number, code: string, attribute: number, acts: Acts): Screen {
  const chosen = state.cups[cup]?.answers[attribute]?.value ?? null
  const ask = heading(question(state, attribute))
  ask.id = 'ask'
  const { field, missing } = answerField(state, attribute, chosen, {
    choose(value) {
      next.removeAttribute('aria-disabled')
      acts.choose(value)
    },
  })
  const next = button('main', 'Next', () => {
    const words = missing()
    if (words === null) acts.next()
    else acts.tell(words)
  })
  if (missing() !== null) next.setAttribute('aria-disabled', 'true')
  return { where: [...where(state, cup, code), skipButton(state, acts)], ask: [ask], stage: field, press: [next] }
}

const KEPT =
  'What was written about this cup on the phone before is kept by the café. What you write here takes its place; left empty, it stays.'

function commentScreen(state: SeatState, cup: number, code: string, draft: string, acts: Acts): Screen {
  const last = !state.cups.some((other, i) => i !== cup && !other.locked)
  const field = el('textarea', { rows: '4', maxlength: String(COMMENT_LENGTH), 'aria-labelledby': 'ask' })
  field.value = draft
  field.addEventListener('input', () => acts.type(field.value))
  const ask = heading('Anything to say about this cup?')
  ask.id = 'ask'
  return {
    where: where(state, cup, code),
    ask: [ask],
    stage: [
      ...(state.cups[cup]?.commentKept ? [para(KEPT, 'lead')] : []),
      field,
      para('You may leave this empty. After “Next” this cup is done, and its answers stay as they are.', 'soft'),
    ],
    press: [button('main', last ? 'Next, and finish' : 'Next cup', acts.next)],
  }
}

/** @param at  one cup, or a set: of cups that are compared one alone says nothing, so they are left out together */
function skipScreen(state: SeatState, at: { cup: number } | { set: number }, acts: Acts): Screen {
  const set = 'set' in at ? (state.sets?.[at.set] ?? null) : setOf(state, at.cup)
  const code = ('cup' in at ? state.cups[at.cup]?.code : undefined) ?? ''
  const caution = el(
    'p',
    { class: 'caution', hidden: '' },
    `Do not taste ${set ? 'these cups' : 'this cup'}, nor the others if you are unsure. Tell who serves now. If you feel unwell, get medical help.`,
  )
  let reason: SkipReason | null = null
  const reasons = el('div', { class: 'scale', role: 'group', 'aria-labelledby': 'ask' })
  for (const name of Object.keys(SKIP_WORDS) as SkipReason[]) {
    const choice = button('step', SKIP_WORDS[name], () => {
      for (const other of reasons.children) other.setAttribute('aria-pressed', String(other === choice))
      reason = name
      caution.hidden = name === 'spilt-or-missing' || name === 'rather-not'
    })
    choice.setAttribute('aria-pressed', 'false')
    reasons.append(choice)
  }
  const ask = heading(set ? 'Why skip these cups?' : 'Why skip this cup?')
  ask.id = 'ask'
  return {
    where: 'cup' in at ? where(state, at.cup, code) : [andAll(codesOf(state, set ?? { positions: [] }).map(spelled))],
    ask: [ask],
    stage: [reasons, el('div', { role: 'status' }, caution)],
    press: [
      button('main', set ? 'Skip them' : `Skip ${spelled(code)}`, () =>
        reason ? acts.skip(reason) : acts.tell('Tap a reason first.'),
      ),
      button('plain', set ? 'Back to the cups' : 'Back to the cup', () => acts.aside('none')),
    ],
  }
}

function endScreen(state: SeatState, closed: boolean, acts: Acts): Screen {
  return {
    where: [`Seat ${state.seat}`],
    ask: [heading(closed ? 'The panel has closed' : 'Thank you, that was the last cup')],
    stage: [
      para('Not everything is saved yet. Keep this page open until it says “Saved” below.', 'lead until-saved'),
      para(closed ? 'Thank you for tasting. Nothing more is asked of you.' : 'Everything is saved.', 'lead once-saved'),
      para('Please do not talk about the cups while others still taste.'),
      el('p', { class: 'once-saved' }, el('a', { href: '/taste/kept' }, 'What is kept of me')),
    ],
    press: [button('plain', 'Pass this phone on', () => acts.aside('pass-on'))],
  }
}

function passOnScreen(state: SeatState, acts: Acts): Screen {
  return {
    where: [`Seat ${state.seat}`],
    ask: [heading('Pass this phone on?')],
    stage: [
      para(`Seat ${state.seat} stays as it was sent and cannot be opened on this phone again.`, 'lead'),
      para('The next taster gets a seat and a tray of their own.'),
    ],
    press: [button('main', 'Pass it on', acts.passOn), button('plain', 'Back', () => acts.aside('none'))],
  }
}
