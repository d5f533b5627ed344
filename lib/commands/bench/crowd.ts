import { setTimeout as pause } from 'node:timers/promises'
import { below, exactly, plainly, spreadOf } from './measure'
import { nextScore, sitDown, type Given, type PhonesHeld } from './phones'
import type { Visitor } from './visitor'

/** as many as a panel can seat */
export const CROWD = 200
const SITTING_AT_ONCE = 10
const ROUNDS = 5
const EVERY_MS = 6000
/** as the phone's own sender comes back: after two seconds and up to one more */
const COME_BACK_MS = 2000
const SPREAD_MS = 1000
const PATIENCE_MS = 10_000

type Sent = { readonly ms: number; readonly sentAway: number; readonly unanswered: number }

/** Two hundred phones send a score at the same moment, and again, each as patient as a phone: how soon has each its 200? */
export async function benchCrowd(address: string, cardPaths: readonly string[]): Promise<PhonesHeld> {
  const seated: Awaited<ReturnType<typeof sitDown>>[] = []
  while (seated.length < CROWD) {
    const next = Array.from({ length: SITTING_AT_ONCE }, (_, at) => seated.length + at)
    seated.push(...(await Promise.all(next.map((at) => sitDown(address, cardPaths[at] ?? '', `Guest ${at + 1}`)))))
  }
  const sent: Sent[] = []
  const stands = new Map<string, Given>()
  for (let round = 0; round < ROUNDS; round++) {
    const wait = pause(EVERY_MS)
    const together = seated.map(({ visitor, state }, phone) => {
      const score = nextScore(state, phone, round)
      stands.set(`${score.seat} ${score.code} ${score.attribute}`, score)
      const message = { ...score, seat: undefined, sitting: state.sitting, key: `crowd-${phone}-${round}-key` }
      return untilTaken(visitor, message)
    })
    sent.push(...(await Promise.all(together)))
    await wait
  }
  const spread = spreadOf(sent.map(({ ms }) => ms))
  const sum = (part: 'sentAway' | 'unanswered') => sent.reduce((all, one) => all + one[part], 0)
  const named = (what: string, unit: string, note?: string) =>
    note === undefined ? ({ part: 'phones', what, unit } as const) : ({ part: 'phones', what, unit, note } as const)
  const tail = `median ${Math.round(spread.median)} ms, slowest ${Math.round(spread.most)} ms`
  return {
    measured: [
      below(named(`${CROWD} phones send at the same moment, acknowledged, p99`, 'ms', tail), spread.p99, 3000),
      exactly(named('of them acknowledged in the end', 'scores'), sent.length, CROWD * ROUNDS),
      plainly(named('sendings that the door sent away with 503', 'sendings'), sum('sentAway')),
      exactly(named('sendings without an answer in ten seconds', 'sendings'), sum('unanswered'), 0),
    ],
    given: [...stands.values()],
  }
}

/** Sends until it is acknowledged. @throws where the answer is neither that nor "come back" */
async function untilTaken(visitor: Visitor, message: object): Promise<Sent> {
  const began = performance.now()
  for (let sentAway = 0, unanswered = 0; ;) {
    const status = await statusOf(visitor, message)
    if (status === 200) return { ms: performance.now() - began, sentAway, unanswered }
    if (status === null) unanswered++
    else if (status === 503) sentAway++
    else throw new Error(`a score was answered with ${status}`)
    await pause(COME_BACK_MS + Math.random() * SPREAD_MS)
  }
}

/** @returns null without an answer */
async function statusOf(visitor: Visitor, message: object): Promise<number | null> {
  try {
    const answer = await visitor.ask('/taste/scores', {
      method: 'POST',
      body: JSON.stringify(message),
      headers: { 'content-type': 'application/json' },
      signal: AbortSignal.timeout(PATIENCE_MS),
    })
    await answer.text()
    return answer.status
  } catch {
    return null
  }
}
