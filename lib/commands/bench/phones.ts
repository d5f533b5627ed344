import { setTimeout as pause } from 'node:timers/promises'
import { below, exactly, plainly, sayTail, spreadOf, type Measured } from './measure'
import { Visitor } from './visitor'

const PHONES = 60
const EVERY_MS = 5000
const ROUNDS = 7
/** every so many phones, a message is sent twice at once: a double tap, a lost answer */
const TWICE = 6
const PATIENCE_MS = 30_000
const COME_BACK_MS = 1000

export interface PhoneState {
  readonly sitting: string
  readonly seat: number
  readonly attributes: readonly string[]
  readonly cups: readonly { readonly code: string }[]
}

/** What must stand in the books for one cup and attribute of one seat. */
export interface Given {
  readonly seat: number
  readonly code: string
  readonly attribute: number
  readonly value: number
  readonly revision: number
}

export interface PhonesHeld {
  readonly measured: Measured[]
  readonly given: readonly Given[]
}

/**
 * Sixty phones take a seat, each by its card, for one address is not given so many by the code, and each scores every five
 * seconds: how soon is a score acknowledged?
 */
export async function benchPhones(address: string, cardPaths: readonly string[]): Promise<PhonesHeld> {
  const seated = await Promise.all(
    Array.from({ length: PHONES }, (_, at) => sitDown(address, cardPaths[at] ?? '', `Taster ${at + 1}`)),
  )
  const times: number[] = []
  const given = await Promise.all(
    seated.map(async ({ visitor, state }, phone) => {
      await pause((phone * EVERY_MS) / PHONES)
      const stands = new Map<string, Given>()
      for (let round = 0; round < ROUNDS; round++) {
        const wait = pause(EVERY_MS)
        const score = nextScore(state, phone, round)
        const message = { ...score, seat: undefined, sitting: state.sitting, key: `bench-${phone}-${round}-key` }
        const send = () => acknowledged(visitor, message)
        const [first] = await Promise.all([send(), ...(phone % TWICE ? [] : [send()])])
        times.push(first)
        stands.set(`${score.code} ${score.attribute}`, score)
        if (round < ROUNDS - 1) await wait
      }
      return [...stands.values()]
    }),
  )
  const spread = spreadOf(times)
  const what = `${PHONES} phones, each a score every ${EVERY_MS / 1000} s, acknowledged, median`
  const sent = `scores sent, and every message of each ${TWICE}th phone sent twice`
  return {
    measured: [
      below({ part: 'phones', what, unit: 'ms', note: sayTail(spread) }, spread.median, 50),
      plainly({ part: 'phones', what: sent, unit: 'scores' }, times.length),
    ],
    given: given.flat(),
  }
}

/** Cup after cup, attribute after attribute; who is through changes the first answers. */
export function nextScore(state: PhoneState, phone: number, round: number): Given {
  const answers = state.cups.length * state.attributes.length
  const place = round % answers
  return {
    seat: state.seat,
    code: state.cups[Math.floor(place / state.attributes.length)]?.code ?? '',
    attribute: place % state.attributes.length,
    value: 1 + ((phone + round) % 9),
    revision: 1 + Math.floor(round / answers),
  }
}

/** Sends a score; how many milliseconds until it is acknowledged? */
export async function acknowledged(visitor: Visitor, message: object): Promise<number> {
  const began = performance.now()
  const answer = await visitor.post('/taste/scores', message)
  const said = await answer.text()
  if (answer.status !== 200) throw new Error(`a score was answered with ${answer.status}: ${said}`)
  return performance.now() - began
}

/** Joins by the panel's address, as a phone does after scanning. */
export async function sitDown(
  address: string,
  path: string,
  name: string,
): Promise<{ readonly visitor: Visitor; readonly state: PhoneState }> {
  const visitor = new Visitor(address)
  // a house that has only just been started tells some of a crowd to come back in a moment
  for (let page = await visitor.ask(path); page.status !== 200; page = await visitor.ask(path)) {
    if (page.status !== 503) throw new Error(`${path} was answered with ${page.status}`)
    await pause(COME_BACK_MS)
  }
  const form = new URLSearchParams({ act: 'take', name, consent: 'yes', unaffected: 'yes', unseen: 'yes' })
  const taken = await visitor.post(path, form)
  if (taken.status !== 303) throw new Error(`a seat was answered with ${taken.status}: ${wordsOf(await taken.text())}`)
  const answer = await visitor.ask('/taste/state', { signal: AbortSignal.timeout(PATIENCE_MS) })
  return { visitor, state: (await answer.json()) as PhoneState }
}

/** What a page says, without its marks. */
function wordsOf(page: string): string {
  const main = /<main.*<\/main>/s.exec(page)?.[0] ?? page
  return main
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 300)
}

/** One score as the database keeps it. */
export interface Kept {
  readonly value: number
  readonly revision: number
  readonly serving: { readonly code: string; readonly seat: { readonly number: number } }
  readonly attribute: { readonly position: number }
}

/** Do the books hold each answer once, as it was last given, and nothing else? */
export function checkBooks(given: readonly Given[], kept: readonly Kept[], late: number): Measured[] {
  const keyOf = (seat: number, code: string, attribute: number) => `${seat} ${code} ${attribute}`
  const wanted = new Map(given.map((one) => [keyOf(one.seat, one.code, one.attribute), one]))
  const places = new Set<string>()
  let right = 0
  for (const { value, revision, serving, attribute } of kept) {
    const key = keyOf(serving.seat.number, serving.code, attribute.position)
    const one = wanted.get(key)
    if (one && !places.has(key) && one.value === value && one.revision === revision) right++
    places.add(key)
  }
  const counted = (what: string, measured: number, target: number) =>
    exactly({ part: 'phones', what, unit: 'scores' }, measured, target)
  return [
    counted('scores in the books afterwards', kept.length, wanted.size),
    counted('of them as they were last given', right, wanted.size),
    counted('scores doubled', kept.length - places.size, 0),
    counted('scores kept as late', late, 0),
  ]
}
