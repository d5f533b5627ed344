import { setTimeout as pause } from 'node:timers/promises'
import { below, millisecondsFrom, plainly, spreadOf, type Measured } from './measure'
import type { OpenRoom } from './open-room'
import { acknowledged, nextScore, sitDown } from './phones'
import type { Visitor } from './visitor'

const PHONES = 4
/** as often as sixty phones that each score every five seconds */
const BETWEEN_MS = 83
const QUIET_MS = 12_000
/** so that each plan is beside some hundred scores */
const LEAST_MS = 12_000
const part = 'rehearsal'

/** Plans for the best of some cups; the first two are what is promised. */
const PLANS = [
  { what: '24 tasters × 4 cups', cups: 4, seats: 24, perTaster: '', limit: 2000 },
  { what: '60 tasters × 5 cups', cups: 5, seats: 60, perTaster: '', limit: 5000 },
  { what: '24 tasters × 3 of 4 cups', cups: 4, seats: 24, perTaster: '3', limit: null },
  { what: '60 tasters × 4 of 5 cups', cups: 5, seats: 60, perTaster: '4', limit: null },
] as const

/**
 * How long does a rehearsal of a thousand panels take, and how long does a score wait meanwhile? The same phones score without one just
 * before, so that the two are of one run.
 */
export async function benchRehearsal(owner: Visitor, address: string, room: OpenRoom): Promise<Measured[]> {
  const phones = await Promise.all(
    Array.from({ length: PHONES }, (_, at) => sitDown(address, room.cardPaths[at] ?? '', `Beside ${at + 1}`)),
  )
  let round = 0
  /** One score after the other, until `isOver`. */
  const scoreUntil = async (isOver: () => boolean): Promise<number[]> => {
    const times: number[] = []
    while (!isOver()) {
      const phone = round % PHONES
      const seated = phones[phone]
      if (!seated) throw new Error('a phone has no seat')
      const message = { ...nextScore(seated.state, phone, Math.floor(round / PHONES)), seat: undefined }
      const send = { ...message, sitting: seated.state.sitting, key: `beside-${round}-key` }
      round++
      const [time] = await Promise.all([acknowledged(seated.visitor, send), pause(BETWEEN_MS)])
      times.push(time)
    }
    return times
  }
  const during = async <T>(act: () => Promise<T>) => {
    let isOver = false
    const value = act().finally(() => (isOver = true))
    const [done, times] = await Promise.all([value, scoreUntil(() => isOver)])
    return { done, times }
  }

  // warm: any page's first call loads its part of the program
  await scoreUntil(() => round >= 40)
  await playOnce(owner, PLANS[0])
  const quiet = await during(() => pause(QUIET_MS))
  const found: Measured[] = [...sayScores('no rehearsal beside', quiet.times, null)]
  for (const { what, limit, ...plan } of PLANS) {
    const { done, times } = await during(() => playAgainAndAgain(owner, plan))
    const spread = spreadOf(done)
    const named = { part, what: `a rehearsal of 1 000 panels, ${what}, median`, unit: 'ms' } as const
    found.push(limit === null ? plainly(named, spread.median) : below(named, spread.median, limit))
    found.push(...sayScores(`a rehearsal of ${what} beside`, times, 50))
  }
  return found
}

type Plan = Pick<(typeof PLANS)[number], 'cups' | 'seats' | 'perTaster'>

async function playAgainAndAgain(owner: Visitor, plan: Plan): Promise<number[]> {
  const times: number[] = []
  const start = performance.now()
  while (millisecondsFrom(start) < LEAST_MS) times.push(await playOnce(owner, plan))
  return times
}

async function playOnce(owner: Visitor, { cups, seats, perTaster }: Plan): Promise<number> {
  const query = new URLSearchParams({
    recipe: 'bench',
    aim: 'best',
    kind: 'all-pairs',
    difference: '1',
    rehearse: '1',
    cups: String(cups),
    seats: String(seats),
    perTaster,
  })
  const began = performance.now()
  const answer = await owner.ask(`/panels/figures?${query.toString()}`)
  const said = (await answer.json()) as { readonly hundred: object | null; readonly lines: readonly string[] }
  if (answer.status !== 200 || !said.hundred) throw new Error(`nothing was rehearsed: ${said.lines.join(' ')}`)
  return millisecondsFrom(began)
}

function sayScores(beside: string, times: readonly number[], limit: number | null): Measured[] {
  const spread = spreadOf(times)
  const note = `${times.length} scores, median ${spread.median.toFixed(1)} ms, p95 ${spread.p95.toFixed(1)} ms`
  const named = { part, what: `slowest score of ${PHONES} phones, ${beside}`, unit: 'ms', note } as const
  const slowest = Math.max(...times)
  return [limit === null ? plainly(named, slowest) : below(named, slowest, limit)]
}
