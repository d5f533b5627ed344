import type { Outbox } from './outbox'
import type { Parcel } from './parcel'

/** How a sending ended. Only `taken` means that the café's computer has the answer. */
export type Outcome =
  | { readonly kind: 'taken'; readonly reply: Readonly<Record<string, unknown>> }
  | { readonly kind: 'refused'; readonly reason: string; readonly words: string }
  | { readonly kind: 'unreachable' }
  /** The café's computer was reached and could not take it just now: its words, and how long to leave it alone. */
  | { readonly kind: 'troubled'; readonly words: string; readonly comeBackMs: number }

type Failed = Exclude<Outcome, { readonly kind: 'taken' | 'refused' }>

/** What is true of this seat's answers right now. */
export type SaveState =
  | { readonly kind: 'saved' | 'sending' | 'waiting'; readonly count: number }
  | { readonly kind: 'troubled'; readonly count: number; readonly words: string }

/** After these nothing of this turn will ever be taken: stop, and keep what waits where it is. */
const FINAL: ReadonlySet<string> = new Set([
  'no-seat',
  'seat-moved',
  'phone-passed-on',
  'another-sitting',
  'on-paper',
  'knows-too-much',
  'set-aside',
])

const FIRST_PAUSE_MS = 1000
const LONGEST_PAUSE_MS = 2000
/** Every pause is longer by up to this, so that a crowd sent away together does not come back together. */
const SPREAD_MS = 1000

export type SenderParts = {
  readonly outbox: Outbox
  readonly sitting: string
  post(parcel: Parcel): Promise<Outcome>
  /** runs `then` after a pause; gives what cancels it */
  after(ms: number, then: () => void): () => void
  /** from 0 up to 1 */
  chance(): number
  onState(state: SaveState): void
  onOutcome(parcel: Parcel, outcome: Outcome): void
}

export interface Sender {
  /** Sends what waits, now: after a tap, when the line is back, when the phone wakes. */
  kick(): Promise<void>
}

/**
 * Sends what waits, one by one and in order, and forgets a message only when it was taken or refused. A lost answer is
 * sent again under the same key, which the café's computer knows: it counts once.
 *
 * Between tries it waits one to three seconds, however long the trouble lasts and whatever the café's computer asks for
 * beyond that: once it is up again, every phone is back within four seconds.
 */
export function createSender({ outbox, sitting, post, after, chance, onState, onOutcome }: SenderParts): Sender {
  let running: Promise<void> | null = null
  let again = false
  let over = false
  let pause = FIRST_PAUSE_MS
  let failed: Failed | null = null
  let cancel = () => {}

  async function run(): Promise<void> {
    cancel()
    while (!over) {
      again = false
      const waiting = await outbox.waiting(sitting)
      const parcel = waiting[0]
      if (!parcel) return onState({ kind: 'saved', count: 0 })
      onState(stateAfter(failed, waiting.length))
      const outcome = await post(parcel)
      if (outcome.kind === 'unreachable' || outcome.kind === 'troubled') {
        failed = outcome
        onState(stateAfter(failed, (await outbox.waiting(sitting)).length))
        const least = Math.max(pause, outcome.kind === 'troubled' ? outcome.comeBackMs : 0)
        cancel = after(Math.min(least, LONGEST_PAUSE_MS) + chance() * SPREAD_MS, () => void kick())
        pause = LONGEST_PAUSE_MS
        return
      }
      failed = null
      pause = FIRST_PAUSE_MS
      if (outcome.kind === 'refused' && FINAL.has(outcome.reason)) over = true
      else await outbox.remove(parcel.id)
      onOutcome(parcel, outcome)
    }
  }

  function kick(): Promise<void> {
    again = true
    running ??= run().finally(() => {
      running = null
      if (again && !over) void kick() // asked for after the last look into the outbox
    })
    return running
  }

  return { kick }
}

/** Until a try goes through, what the last one met is what is said. */
function stateAfter(failed: Failed | null, count: number): SaveState {
  if (failed?.kind === 'troubled') return { kind: 'troubled', count, words: failed.words }
  return { kind: failed === null ? 'sending' : 'waiting', count }
}
