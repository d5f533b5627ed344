import { setTimeout as pause } from 'node:timers/promises'
import { nextScore, sitDown, type Given, type PhoneState } from '../bench/phones'
import type { Visitor } from '../bench/visitor'

const EVERY_MS = 2000
const TRY_AGAIN_MS = 500
/** as long as a taster's phone waits for an answer */
const ANSWER_MS = 10_000
const LOOK_MS = 20
/** only what hangs is given up */
const PATIENCE_MS = 15 * 60_000

interface Phone {
  readonly visitor: Visitor
  readonly state: PhoneState
  /** the answer that was acknowledged last, for each cup and attribute */
  readonly told: Map<string, Given>
  acknowledged: number
  /** when the answer that was acknowledged last was first sent; the watch of this process, ms */
  lastSent: number
  longestWait: number
  /** how often it was answered that its score cannot be kept now */
  turnedAway: number
  /** why the house takes no more from it */
  refusal: string | null
  /** nothing is on its way */
  isStill: boolean
}

/** Phones that score steadily. What is not answered is sent again, the same message, until it is acknowledged or refused. */
export class SteadyPhones {
  readonly #phones: readonly Phone[]
  readonly #done: Promise<unknown>
  #isOver = false
  #everyMs = EVERY_MS

  private constructor(phones: readonly Phone[]) {
    this.#phones = phones
    this.#done = Promise.all(phones.map((phone, at) => this.#score(phone, at)))
  }

  static async sitDown(address: string, cardPaths: readonly string[], count: number): Promise<SteadyPhones> {
    const seated = await Promise.all(
      Array.from({ length: count }, (_, at) => sitDown(address, cardPaths[at] ?? '', `Taster ${at + 1}`)),
    )
    return new SteadyPhones(
      seated.map((one) => ({
        ...one,
        told: new Map(),
        acknowledged: 0,
        lastSent: 0,
        longestWait: 0,
        turnedAway: 0,
        refusal: null,
        isStill: false,
      })),
    )
  }

  /** From now on each phone sends the next answer as soon as the last was acknowledged: one of each is always in flight. */
  hurry(): void {
    this.#everyMs = 0
  }

  /** how many messages were acknowledged */
  get acknowledged(): number {
    return this.#phones.reduce((sum, phone) => sum + phone.acknowledged, 0)
  }

  /** the longest that one score waited, from first sent until acknowledged, ms */
  get longestWait(): number {
    return Math.max(...this.#phones.map((phone) => phone.longestWait))
  }

  get told(): Given[] {
    return this.#phones.flatMap((phone) => [...phone.told.values()])
  }

  get refusals(): string[] {
    return this.#phones.flatMap((phone) => phone.refusal ?? [])
  }

  /** Waits until every phone has an answer acknowledged that it sent after this call. @returns how long that took, ms */
  async allAcknowledged(): Promise<number> {
    const began = performance.now()
    await until(() => this.#phones.every((phone) => phone.lastSent > began), 'every phone has an answer acknowledged')
    return performance.now() - began
  }

  /** Waits until each phone was answered, from now on, that its score cannot be kept now. */
  allTurnedAway(): Promise<void> {
    const before = this.#phones.map((phone) => phone.turnedAway)
    const isSo = () => this.#phones.every((phone, at) => phone.turnedAway > (before[at] ?? 0))
    return until(isSo, 'every phone is told that its score cannot be kept now')
  }

  /** Waits until each phone was told why the house takes no more. */
  allRefused(): Promise<void> {
    return until(() => this.#phones.every((phone) => phone.refusal !== null), 'every phone is refused')
  }

  /** Sends nothing new, and waits until what was on its way has been acknowledged or refused. */
  async settle(): Promise<void> {
    this.#isOver = true
    await until(() => this.#phones.every((phone) => phone.isStill), 'every phone is still')
    await this.#done
  }

  async #score(phone: Phone, at: number): Promise<void> {
    await pause((at * EVERY_MS) / this.#phones.length)
    for (let round = 0; !this.#isOver && phone.refusal === null; round++) {
      const wait = pause(this.#everyMs)
      await deliver(phone, nextScore(phone.state, at, round), `torture-${at}-${round}-key`)
      await wait
    }
    phone.isStill = true
  }
}

async function deliver(phone: Phone, score: Given, key: string): Promise<void> {
  const { seat, ...answer } = score
  const message = { ...answer, sitting: phone.state.sitting, key }
  const sent = performance.now()
  for (;;) {
    const reply = await send(phone.visitor, message)
    if (reply?.status === 200 && reply.key === key) {
      phone.told.set(`${seat} ${score.code} ${score.attribute}`, score)
      phone.acknowledged++
      phone.lastSent = sent
      phone.longestWait = Math.max(phone.longestWait, performance.now() - sent)
      return
    }
    if (reply && reply.status >= 400 && reply.status < 500) {
      phone.refusal = reply.reason ?? `status ${reply.status}`
      return
    }
    if (reply) phone.turnedAway++
    await pause(TRY_AGAIN_MS)
  }
}

interface Reply {
  readonly status: number
  readonly key?: string
  readonly reason?: string
}

/** @returns null when no answer came that can be read */
async function send(visitor: Visitor, message: object): Promise<Reply | null> {
  try {
    const answer = await visitor.post('/taste/scores', message, { signal: AbortSignal.timeout(ANSWER_MS) })
    return { ...((await answer.json()) as object), status: answer.status }
  } catch {
    return null
  }
}

/** Waits for what happens; what does not happen in a quarter of an hour is an error that says what was waited for. */
async function until(isSo: () => boolean, what: string): Promise<void> {
  const giveUp = performance.now() + PATIENCE_MS
  while (!isSo()) {
    if (performance.now() > giveUp) throw new Error(`it was waited in vain until ${what}`)
    await pause(LOOK_MS)
  }
}
