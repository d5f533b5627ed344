import { expect, test } from 'vitest'
import { memoryOutbox, type Outbox } from '@/app/taste/phone/outbox'
import type { Parcel } from '@/app/taste/phone/parcel'
import { createSender, type Outcome, type SaveState } from '@/app/taste/phone/sender'

const SITTING = 'this-turn'
const score = (value: number, attribute = 0) => ({ sitting: SITTING, code: '417', attribute, value })
const taken: Outcome = { kind: 'taken', reply: {} }
const unreachable: Outcome = { kind: 'unreachable' }

/** A café's computer that answers as told, one answer a sending; the last answer repeats. */
function line(outbox: Outbox, ...answers: Outcome[]) {
  let chance = 0
  const sent: Parcel['message'][] = []
  const states: SaveState[] = []
  const refusals: string[] = []
  const timers: { ms: number; then: () => void }[] = []
  const sender = createSender({
    outbox,
    sitting: SITTING,
    async post(parcel) {
      sent.push(parcel.message)
      return (answers.length > 1 ? answers.shift() : answers[0]) ?? unreachable
    },
    after(ms, then) {
      const timer = { ms, then }
      timers.push(timer)
      return () => void timers.splice(timers.indexOf(timer), timers.includes(timer) ? 1 : 0)
    },
    chance: () => chance,
    onState: (state) => states.push(state),
    onOutcome: (_parcel, outcome) => outcome.kind === 'refused' && refusals.push(outcome.reason),
  })
  return { sender, sent, states, refusals, timers, answers, draw: (next: number) => (chance = next) }
}

test('what waits is sent one by one, in the order of the taps, and then called saved', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  await outbox.add(score(5, 1), 0)
  await outbox.add({ sitting: SITTING, code: '417', act: 'lock' }, 0)
  const { sender, sent, states } = line(outbox, taken)
  await sender.kick()
  expect(sent.map((message) => ('act' in message ? message.act : message.value))).toEqual([7, 5, 'lock'])
  expect(states.map(({ kind, count }) => `${kind} ${count}`)).toEqual([
    'sending 3',
    'sending 2',
    'sending 1',
    'saved 0',
  ])
})

test('without a line nothing is called saved, nothing is lost, and the same key goes again', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  const { sender, sent, states, timers, answers } = line(outbox, unreachable)
  await sender.kick()
  expect(states.at(-1)).toEqual({ kind: 'waiting', count: 1 })
  expect(states.some(({ kind }) => kind === 'saved')).toBe(false)
  answers[0] = taken
  timers[0]?.then()
  await sender.kick()
  expect(states.at(-1)).toEqual({ kind: 'saved', count: 0 })
  expect(new Set(sent.map(({ key }) => key)).size).toBe(1)
  expect(await outbox.waiting(SITTING)).toEqual([])
})

test('however long an outage lasts, no pause is longer than three seconds, and a success begins anew', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  const { sender, timers, answers, draw } = line(outbox, unreachable)
  const pauses: number[] = []
  for (const chance of [0, 0, 0.5, 0.999, 0, 0.999]) {
    draw(chance)
    await sender.kick()
    pauses.push(timers.at(-1)?.ms ?? 0)
  }
  expect(pauses).toEqual([1000, 2000, 2500, 2999, 2000, 2999])
  expect(timers).toHaveLength(1)
  answers[0] = taken
  await sender.kick()
  answers[0] = unreachable
  draw(0)
  await outbox.add(score(3), 1)
  await sender.kick()
  expect(timers.at(-1)?.ms).toBe(1000)
})

test.each([
  [0, 1000],
  [2000, 2000],
  [5000, 2000],
  [3_600_000, 2000],
])('told to come back in %i ms, a phone comes back after %i ms and up to one second', async (comeBackMs, least) => {
  for (const chance of [0, 0.25, 0.999]) {
    const outbox = memoryOutbox()
    await outbox.add(score(7), 0)
    const { sender, timers, draw } = line(outbox, { kind: 'troubled', words: 'Busy.', comeBackMs })
    draw(chance)
    await sender.kick()
    expect(timers.map(({ ms }) => ms)).toEqual([least + chance * 1000])
  }
})

test('the words of a computer in trouble stand until a try goes through, and nothing is called saved', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  await outbox.add(score(5, 1), 0)
  const busy: Outcome = { kind: 'troubled', words: 'It did not manage that (fault m9c).', comeBackMs: 0 }
  const { sender, sent, states, answers } = line(outbox, busy)
  await sender.kick()
  answers[0] = unreachable
  await sender.kick()
  answers[0] = taken
  await sender.kick()
  const said = states.map((state) => `${state.kind} ${state.count}${'words' in state ? ` ${state.words}` : ''}`)
  const trouble = 'troubled 2 It did not manage that (fault m9c).'
  expect(said).toEqual(['sending 2', trouble, trouble, 'waiting 2', 'waiting 2', 'sending 1', 'saved 0'])
  expect(new Set(sent.map(({ key }) => key)).size).toBe(2)
})

test('an answer tapped while another is on its way is sent after it', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  const { sender, sent } = line(outbox, taken)
  const first = sender.kick()
  await outbox.add(score(2, 1), 0)
  await Promise.all([first, sender.kick()])
  await sender.kick()
  expect(sent.map((message) => ('value' in message ? message.value : null))).toEqual([7, 2])
})

test('two wakings at once send nothing twice', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  const { sender, sent } = line(outbox, taken)
  await Promise.all([sender.kick(), sender.kick(), sender.kick()])
  expect(sent).toHaveLength(1)
})

test('a refused answer is dropped and told; the next one is sent', async () => {
  const outbox = memoryOutbox()
  await outbox.add(score(7), 0)
  await outbox.add(score(5, 1), 0)
  const { sender, sent, refusals } = line(outbox, { kind: 'refused', reason: 'locked', words: 'no' }, taken)
  await sender.kick()
  expect(refusals).toEqual(['locked'])
  expect(sent).toHaveLength(2)
  expect(await outbox.waiting(SITTING)).toEqual([])
})

test.each(['no-seat', 'seat-moved', 'phone-passed-on', 'another-sitting'])(
  'after "%s" nothing more is sent, and what waits is not called saved',
  async (reason) => {
    const outbox = memoryOutbox()
    await outbox.add(score(7), 0)
    await outbox.add(score(5, 1), 0)
    const { sender, sent, states, refusals } = line(outbox, { kind: 'refused', reason, words: 'no' })
    await sender.kick()
    await sender.kick()
    expect(refusals).toEqual([reason])
    expect(sent).toHaveLength(1)
    expect(await outbox.waiting(SITTING)).toHaveLength(2)
    expect(states.some(({ kind }) => kind === 'saved')).toBe(false)
  },
)

test('what another turn on this phone left behind is not sent in this one', async () => {
  const outbox = memoryOutbox()
  await outbox.add({ ...score(7), sitting: 'the-turn-before' }, 0)
  const { sender, sent } = line(outbox, taken)
  await sender.kick()
  expect(sent).toEqual([])
  await outbox.forgetOthers(SITTING)
  expect(await outbox.waiting('the-turn-before')).toEqual([])
})

test('revisions count up for one answer, from what the café already has, and keys never repeat', async () => {
  const outbox = memoryOutbox()
  const first = await outbox.add(score(7), 4)
  const second = await outbox.add(score(8), 4)
  const other = await outbox.add(score(8, 1), 0)
  expect([first, second, other].map(({ message }) => message.revision)).toEqual([5, 6, 1])
  expect(new Set([first, second, other].map(({ message }) => message.key)).size).toBe(3)
})
