import type { SeatState } from '@/lib/panel/blind'
import { el } from './dom'
import type { OtherTabs } from './other-tabs'
import type { Outbox } from './outbox'
import type { Draft, Parcel } from './parcel'
import type { Trouble } from './post'
import { knownRevision, placeOf, standsInstead, withMessage, withParcels, type Bookmark, type Place } from './progress'
import { screenOf, type Acts, type Aside } from './screens'
import type { Outcome, SaveState, Sender } from './sender'
import { setOf } from './sets'
import { unsentLines } from './unsent'
import { GONE, saveWords, unsentWords } from './words'

export type Frame = {
  readonly where: HTMLElement
  readonly told: HTMLElement
  readonly ask: HTMLElement
  readonly stage: HTMLElement
  readonly saved: HTMLElement
  readonly press: HTMLElement
}

/** What outlives a reload in this tab: where the taster was, and what is half typed. */
export type Memory = { get(name: string): string | null; set(name: string, value: string): void }

export type SessionParts = {
  readonly frame: Frame
  readonly outbox: Outbox
  readonly memory: Memory
  readonly others: OtherTabs
  makeSender(session: { onState(state: SaveState): void; onOutcome(parcel: Parcel, outcome: Outcome): void }): Sender
  fetchState(): Promise<SeatState | { readonly reason: string; readonly words: string } | Trouble | null>
  passOn(): Promise<{ readonly next: string } | { readonly words: string } | Trouble | null>
  /** runs `then` after a pause; gives what cancels it */
  after(ms: number, then: () => void): () => void
  go(path: string): void
}

/** Whoever laid the phone down at the question has not passed it on: the seat is shown again. */
const PASS_ON_MS = 60_000

/** One turn at one seat: draws the place, keeps every tap, and follows what the café's computer says. */
export function openSession(first: SeatState, parts: SessionParts) {
  const { frame, outbox, memory, others } = parts
  let state = first
  let aside: Aside = 'none'
  let started = false
  let over = false
  let save: SaveState = { kind: 'saved', count: 0 }
  let adding: Promise<unknown> = Promise.resolve()
  let stopAsking = () => {}

  const sender = parts.makeSender({
    onState(now) {
      if (over) return
      save = now
      sayState()
    },
    onOutcome({ message }, outcome) {
      if (outcome.kind === 'taken') {
        const instead = standsInstead(message, outcome.reply)
        if (instead) adopt(instead)
        if (instead || !outbox.lasts) others.tell({ kind: 'look' })
        return
      }
      if (outcome.kind !== 'refused') return
      tell(outcome.words)
      others.tell({ kind: 'look' })
      void refresh()
    },
  })

  /** Another page of this seat: its taps show here too, and wait in the outbox that both share until they are saved. */
  others.listen((word) => {
    if (over) return
    if (word.kind === 'look') return void refresh()
    if (!outbox.lasts) return // not shared: shown once the café's computer has it
    save = { kind: 'sending', count: 1 }
    adopt(word.message)
    void sender.kick()
  })

  /** Shows what was answered elsewhere. The taster stays at the question, unless its cup is done. */
  function adopt(message: Parcel['message']): void {
    const here = place()
    if (here.kind === 'answer') inCup((code) => hold(code, here.attribute))
    follow(withMessage(state, message), here)
  }

  function follow(next: SeatState, from: Place): void {
    if (JSON.stringify(next) === JSON.stringify(state)) return
    state = next
    const moved = JSON.stringify(place()) !== JSON.stringify(from)
    if (moved) aside = 'none'
    draw(moved)
  }

  /** Says nothing before there is something to save, and not "Saved" of what came after closing. */
  function sayState(): void {
    const touched = state.cups.some((cup) => cup.seen || cup.locked)
    const words = save.count > 0 || (touched && place().kind !== 'closed') ? saveWords(save, outbox.lasts) : ''
    if (frame.saved.textContent !== words) frame.saved.textContent = words
    document.body.dataset.save = save.kind
  }

  function tell(words: string): void {
    frame.told.textContent = words
  }

  function bookmark(): Bookmark | null {
    const kept = memory.get('place')
    return kept === null ? null : (JSON.parse(kept) as Bookmark)
  }

  function place(): Place {
    return placeOf(state, bookmark(), started)
  }

  function draftOf(cup: number): string {
    const { code = '', comment = '' } = state.cups[cup] ?? {}
    return memory.get(`comment ${state.sitting} ${code}`) ?? comment
  }

  function draw(focus: boolean): void {
    if (over) return
    const here = place()
    const screen = screenOf(state, here, aside, 'cup' in here ? draftOf(here.cup) : '', acts)
    frame.where.replaceChildren(...screen.where)
    frame.ask.replaceChildren(...screen.ask)
    frame.stage.replaceChildren(...screen.stage)
    frame.press.replaceChildren(...screen.press)
    document.body.dataset.place = aside === 'none' ? here.kind : aside
    const cup = 'cup' in here ? `, cup ${here.cup + 1} of ${state.cups.length}` : ''
    document.title = `Seat ${state.seat}${cup}`
    sayState()
    if (!focus) return
    window.scrollTo(0, 0)
    frame.ask.querySelector('h1')?.focus({ preventScroll: true })
  }

  /** Keeps a tap: on the screen at once, in the outbox before it is sent. */
  function keep(draft: Draft): void {
    tell('')
    if (save.kind === 'saved') save = { kind: 'sending', count: 1 }
    sayState()
    const known = knownRevision(state, draft)
    state = withMessage(state, { ...draft, revision: known + 1, key: '' })
    adding = adding
      .then(() => outbox.add(draft, known))
      .then((parcel) => {
        follow(withMessage(state, parcel.message), place())
        others.tell({ kind: 'kept', message: parcel.message })
        void sender.kick()
      })
      .catch(() => tell('This phone could not keep that answer. Tap it again, or tell who serves.'))
  }

  function inCup(act: (code: string, here: Extract<Place, { cup: number }>) => void): void {
    const here = place()
    const code = 'cup' in here ? state.cups[here.cup]?.code : undefined
    if ('cup' in here && code !== undefined) act(code, here)
  }

  /** The set that is tasted now, or that the cup at hand is in. */
  function theSet() {
    const here = place()
    if (here.kind === 'set') return state.sets?.[here.set] ?? null
    return 'cup' in here ? setOf(state, here.cup) : null
  }

  function move(): void {
    aside = 'none'
    draw(true)
  }

  const acts: Acts = {
    tell,
    start() {
      started = true
      move()
    },
    aside(what) {
      tell('')
      stopAsking()
      if (what === 'pass-on') stopAsking = parts.after(PASS_ON_MS, () => acts.aside('none'))
      aside = what
      draw(true)
    },
    codeSeen() {
      inCup((code) => keep({ sitting: state.sitting, code, act: 'code-seen' }))
      move()
    },
    choose(value) {
      inCup((code, here) => {
        if (here.kind !== 'answer') return
        const { attribute } = here
        if (state.cups[here.cup]?.answers[attribute]?.value === value) return
        hold(code, attribute)
        keep({ sitting: state.sitting, code, attribute, value })
      })
    },
    chooseOfSet(answer) {
      const set = theSet()
      if (!set || String(set.answers[0]?.answer ?? null) === String(answer)) return
      keep({ sitting: state.sitting, set: set.number, act: 'answer', attribute: 0, answer: [...answer] })
    },
    lockSet() {
      const set = theSet()
      if (set) keep({ sitting: state.sitting, set: set.number, act: 'lock' })
      move()
    },
    next() {
      inCup((code, here) => {
        if (here.kind === 'answer') hold(code, here.attribute + 1)
        if (here.kind !== 'comment') return
        const comment = draftOf(here.cup).trim()
        if (comment !== (state.cups[here.cup]?.comment ?? '')) {
          keep({ sitting: state.sitting, code, act: 'comment', comment })
        }
        keep({ sitting: state.sitting, code, act: 'lock' })
      })
      move()
    },
    skip(reason) {
      const set = theSet()
      if (set) keep({ sitting: state.sitting, set: set.number, act: 'skip', reason })
      else inCup((code) => keep({ sitting: state.sitting, code, act: 'skip', reason }))
      move()
    },
    type(comment) {
      inCup((code) => memory.set(`comment ${state.sitting} ${code}`, comment))
    },
    passOn() {
      if (save.kind !== 'saved') return tell('Not everything is saved yet. Wait until it says “Saved”.')
      stopAsking()
      tell('Passing on…')
      void parts.passOn().then((answer) => {
        if (answer === null) return tell('The café’s computer cannot be reached just now. Try again.')
        if ('trouble' in answer) return tell(`${answer.trouble} Try again in a moment.`)
        if ('words' in answer) return tell(answer.words)
        others.tell({ kind: 'look' })
        parts.go(answer.next)
      })
    },
  }

  /** Stays at this question until "Next", however often it is answered. */
  function hold(code: string, step: number): void {
    memory.set('place', JSON.stringify({ sitting: state.sitting, code, step } satisfies Bookmark))
  }

  /** Asks what the café knows, and lays over it what has not arrived there. */
  async function refresh(): Promise<void> {
    const before = await outbox.waiting(state.sitting)
    const fetched = await parts.fetchState()
    if (fetched === null || 'trouble' in fetched || over) return
    if ('reason' in fetched) return end(fetched.reason, fetched.words)
    if (fetched.sitting !== state.sitting) return parts.go('/taste')
    await adding
    follow(withParcels(fetched, [...before, ...(await outbox.waiting(state.sitting))]), place())
  }

  /** This page can do nothing more; what could not be sent is shown, so that it can be told or copied, not hidden. */
  async function end(reason: string, words: string): Promise<void> {
    over = true
    await adding
    const left = unsentLines(state, await outbox.waiting(state.sitting))
    const gone = (GONE as Readonly<Record<string, { title: string; text: string } | undefined>>)[reason]
    tell('')
    frame.where.replaceChildren(`Seat ${state.seat}`)
    frame.ask.replaceChildren(el('h1', { tabindex: '-1' }, gone?.title ?? words))
    frame.stage.replaceChildren(
      ...(gone ? [el('p', { class: 'lead' }, gone.text)] : []),
      el('p', { class: 'lead' }, unsentWords(left.length)),
      el('ul', { class: 'unsent' }, ...left.map((line) => el('li', {}, line))),
    )
    frame.saved.textContent = ''
    frame.press.replaceChildren()
    document.body.dataset.place = 'over'
    frame.ask.querySelector('h1')?.focus({ preventScroll: true })
  }

  async function wake(): Promise<void> {
    if (over) return
    await sender.kick()
    await refresh()
  }

  async function begin(): Promise<void> {
    await outbox.forgetOthers(state.sitting)
    if (state.gone) return end(state.gone, '')
    state = withParcels(state, await outbox.waiting(state.sitting))
    draw(false)
    await sender.kick()
  }

  return { begin, wake }
}
