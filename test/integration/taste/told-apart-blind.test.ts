/** Nothing a phone receives tells the odd one: every byte of two seats whose sets are poured otherwise is the same but for codes. */
import { expect, test, vi } from 'vitest'
import { protocols } from '@/lib/panel/kinds/difference-sets'
import { cafeForTest } from '../../support/cafe'
import { openDifferencePanel } from '../../support/difference-panel'
import { phoneBrowser, WILLING, type Heard } from '../../support/phone-browser'

const here = vi.hoisted(() => ({ world: undefined as unknown }))
vi.mock('@/lib/tasks/world', async (actual) => ({ ...(await actual<object>()), theWorld: () => here.world }))
vi.mock('@/lib/auth/session', () => ({ currentUserId: async () => null }))

/** What is a seat's own by chance: its codes, its number, names of turns, ids of cookies and moments. */
function plain({ what, status, body }: Heard, codes: readonly string[], seat: number, turn: string): string {
  const bare = codes.reduce((text, code, at) => text.replaceAll(`"${code}"`, `code ${at + 1}`), body)
  return `${what} ${status}\n${bare
    .replaceAll(turn, 'turn')
    .replaceAll(`"seat":${seat},`, '')
    .replace(/seat \d+/gi, 'seat')}`
}

test.each(protocols)(
  '%s: whatever is poured in which order, and whether an answer is right, a phone hears the same',
  async (protocol) => {
    const cafe = await cafeForTest()
    here.world = cafe.world
    const property = protocol.endsWith('afc') ? 'sweeter' : null
    const panelId = await openDifferencePanel(
      cafe,
      { protocol, property, each: property === null ? 2 : 1 },
      { seatCount: 8 },
    )
    const held = await cafe.db.panel.findUniqueOrThrow({
      where: { id: panelId },
      include: { cups: true, attributes: true, seats: { include: { servings: true, sets: true } } },
    })
    const said: string[] = []
    const poured = new Set<string>()
    const all: Heard[] = []
    for (let nth = 0; nth < 6; nth += 1) {
      const heard: Heard[] = []
      const phone = phoneBrowser(heard)
      const door = { kind: 'join', token: held.joinToken } as const
      await phone.show(door)
      await phone.enter(door, { ...WILLING, name: 'Taster' })
      await phone.taste()
      const state = (await phone.state()).json()
      const [turn, seat] = [String(state.sitting), Number(state.seat)]
      const message = { sitting: turn, revision: 1, key: 'a-key-of-its-own' }
      // the same places at every seat: right at some, wrong at others
      const last = protocol === 'tetrad' ? 4 : protocol === 'two-afc' ? 2 : 3
      const answer = protocol === 'tetrad' ? [1, 3] : [2]
      const answered = { ...message, set: 1, act: 'answer', attribute: 0, answer }
      expect((await phone.set(answered)).status).toBe(200)
      expect((await phone.set({ ...message, set: 1, act: 'lock' })).status).toBe(200)
      if (property === null) {
        expect((await phone.set({ ...answered, set: 2, answer: answer.map((at) => at + last) })).status).toBe(200)
        expect((await phone.set({ ...message, set: 2, act: 'lock' })).status).toBe(200)
      }
      await phone.state()
      await phone.taste()
      const own = held.seats.find(({ number }) => number === seat)?.servings.toSorted((a, b) => a.position - b.position)
      poured.add((own ?? []).map(({ cupId }) => (cupId === held.cups[0]?.id ? 'A' : 'B')).join(''))
      said.push(
        heard
          .slice(2)
          .map((one) =>
            plain(
              one,
              (own ?? []).map(({ code }) => code),
              seat,
              turn,
            ),
          )
          .join('\n'),
      )
      all.push(...heard)
    }
    expect(poured.size, 'seats differ in what is poured').toBeGreaterThan(1)
    expect(new Set(said).size).toBe(1)
    const secrets = [
      ...[cafe.owner.cafeId, panelId, held.recipeId, held.title, String(held.orderSeed), 'Velvetine', 'pouring'],
      ...held.cups.flatMap(({ id, trialId, jugLetter }) => [id, trialId, `"${jugLetter}"`]),
      ...held.attributes.map(({ id }) => id),
      ...held.seats.flatMap(({ id, servings, sets }) => [id, ...[...servings, ...sets].map((one) => one.id)]),
    ]
    const found = (words: readonly string[]) =>
      words.filter((word) => all.some(({ head, body }) => `${head}\n${body}`.includes(word)))
    expect(found(secrets)).toEqual([])
    // the search hears what it should
    expect(found([held.seats[0]?.servings[0]?.code ?? 'none', 'positions'])).toHaveLength(2)
    await cafe.close()
  },
)
