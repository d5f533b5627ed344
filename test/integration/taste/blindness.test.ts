/** Nothing a taster's device receives before closing may tell which cup is which: every byte of every answer is searched. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { GET as getTry } from '@/app/try/[token]/route'
import { GET as getScript } from '@/app/taste/taste.js/route'
import { GET as getStyle } from '@/app/taste/taste.css/route'
import { bundlePhone } from '@/lib/commands/phone-bundle.mjs'
import { cafeForTest } from '../../support/cafe'
import { openChoicePanel } from '../../support/choice-panel'
import { codeOf, openPanelForTest, type OpenPanel } from '../../support/open-panel'
import { phoneBrowser, WILLING, type Heard } from '../../support/phone-browser'

const here = vi.hoisted(() => ({ world: undefined as unknown, userId: null as string | null }))
vi.mock('@/lib/tasks/world', async (actual) => ({ ...(await actual<object>()), theWorld: () => here.world }))
vi.mock('@/lib/auth/session', () => ({ currentUserId: async () => here.userId }))

let panel: OpenPanel
let folder: string

beforeEach(async () => {
  panel = await openPanelForTest({ seats: 3 })
  here.world = panel.world
  here.userId = null
  folder = mkdtempSync(join(tmpdir(), 'sipwright-phone-'))
  vi.stubEnv('NEXT_DIST_DIR', folder)
})

afterEach(async () => {
  vi.unstubAllEnvs()
  rmSync(folder, { recursive: true, force: true })
  await panel.close()
})

function betrayals(heard: readonly Heard[], secrets: readonly string[]): string[] {
  return heard.flatMap(({ what, head, body }) =>
    secrets
      .filter((secret) => `${head}\n${body}`.toLowerCase().includes(secret.toLowerCase()))
      .map((s) => `${what}: ${s}`),
  )
}

test('a whole panel on two phones, with every mishap, tells no name, no ingredient, no id and no seed', async () => {
  const heard: Heard[] = []
  const door = { kind: 'join', token: panel.joinToken } as const
  const card = { kind: 'card', token: panel.seats[1]?.cardToken ?? '' } as const
  const ana = phoneBrowser(heard)

  await ana.taste()
  await ana.show(door)
  expect((await ana.enter(door, { act: 'take', name: '' })).body).toContain('Write a first name')
  expect((await ana.enter(door, WILLING)).status).toBe(303)
  await ana.taste()
  const { sitting } = (await ana.state()).json()
  const message = { sitting, code: codeOf(1, 0), revision: 1, key: 'a-key-of-its-own' }
  expect((await ana.cup({ ...message, act: 'code-seen' })).status).toBe(200)
  expect((await ana.score({ ...message, attribute: 0, value: 8 })).status).toBe(200)
  expect((await ana.score({ ...message, attribute: 0, value: 8 })).status).toBe(200)
  expect((await ana.score({ ...message, attribute: 0, value: 12 })).status).toBe(409)
  expect((await ana.score({ ...message, attribute: 0, value: -1 })).status).toBe(422)
  expect((await ana.score({ ...message, attribute: 9, value: 2 })).status).toBe(409)
  expect((await ana.score({ ...message, code: codeOf(2, 0), attribute: 0, value: 8 })).status).toBe(409)
  expect((await ana.cup({ ...message, act: 'lock' })).status).toBe(409)
  await ana.score({ ...message, attribute: 1, value: 3 })
  await ana.cup({ ...message, act: 'comment', comment: 'Not mine <b>bold</b>' })
  expect((await ana.cup({ ...message, act: 'lock' })).status).toBe(200)
  await ana.cup({ ...message, code: codeOf(1, 1), act: 'skip', reason: 'rather-not' })
  await ana.taste()
  await ana.show(door)
  await ana.show(card)

  const ben = phoneBrowser(heard)
  await ben.show(card)
  await ben.enter(card, { ...WILLING, name: 'Ben' })
  const cy = phoneBrowser(heard)
  await cy.show(card)
  expect((await cy.enter(card, { act: 'continue' })).status).toBe(303)
  expect((await ben.state()).status).toBe(410)
  await ben.taste()
  await cy.state()
  await cy.enter(door, { act: 'stop' })
  await cy.show({ kind: 'join', token: 'no-such-code' })

  const tried = panel.world.token()
  await panel.db.phoneTry.create({
    data: { id: panel.world.id(), cafeId: panel.cafeId, panelId: panel.panelId, token: tried, createdAt: new Date() },
  })
  const trying = await getTry(cy.ask('/try/x'), { params: Promise.resolve({ token: tried }) })
  expect((await cy.hear('try', trying)).body).toContain('Reached: this phone can take part')

  await bundlePhone(folder)
  expect((await ana.hear('script', await getScript(ana.ask('/taste/taste.js')))).body).toContain('My cup says')
  expect((await ana.hear('style', await getStyle(ana.ask('/taste/taste.css')))).body).toContain('--paper')

  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })
  const late = { ...message, code: codeOf(1, 2), key: 'a-key-too-late', attribute: 0, value: 4 }
  expect((await ana.score(late)).json()).toMatchObject({ reason: 'kept-late' })
  await ana.taste()
  await ana.passOn()
  await ana.taste()

  expect(heard.length).toBeGreaterThan(30)
  expect(betrayals(heard, panel.secrets)).toEqual([])
})

test('the search would find a name, wherever it stood', () => {
  const planted: Heard[] = [{ what: 'x', status: 200, head: 'location: /q/abc', body: 'Zephyrine whole milk' }]
  expect(betrayals(planted, panel.secrets)).toEqual(['x: Zephyrine'])
  expect(betrayals(planted, ['/Q/ABC'])).toEqual(['x: /Q/ABC'])
})

test('every answer forbids keeping it, passing its address on, and running anything foreign', async () => {
  const ana = phoneBrowser()
  const door = { kind: 'join', token: panel.joinToken } as const
  await ana.show(door)
  await ana.enter(door, WILLING)
  await ana.taste()
  await ana.state()
  await ana.score({})
  await ana.passOn()
  await ana.show({ kind: 'card', token: 'no-such-card' })
  for (const { what, head } of ana.heard) {
    expect(head, what).toContain('cache-control: no-store')
    expect(head, what).toContain('referrer-policy: no-referrer')
    expect(head, what).toContain("default-src 'none'; script-src 'self'")
    expect(head, what).not.toContain('unsafe')
  }
})

test('a seat is told the codes of its own cups only, in its own order', async () => {
  const ana = phoneBrowser()
  await ana.show({ kind: 'card', token: panel.seats[1]?.cardToken ?? '' })
  await ana.enter({ kind: 'card', token: panel.seats[1]?.cardToken ?? '' }, WILLING)
  const state = (await ana.state()).json()
  expect(Object.keys(state).sort()).toEqual([
    'asks',
    'attributes',
    'cups',
    'gone',
    'open',
    'scale',
    'seat',
    'sitting',
    'title',
  ])
  const cups = state.cups as Record<string, unknown>[]
  expect(cups.map(({ code }) => code)).toEqual([codeOf(2, 0), codeOf(2, 1), codeOf(2, 2)])
  for (const cup of cups) {
    const known = [
      'answers',
      'code',
      'comment',
      'commentKept',
      'commentRevision',
      'locked',
      'position',
      'seen',
      'skipped',
    ]
    expect(Object.keys(cup).sort()).toEqual(known)
  }
  expect(JSON.stringify(state)).not.toContain(codeOf(1, 0))
})

test('the door says the same at every seat: its cautions come from all cups together', async () => {
  const doors = panel.seats.map(({ cardToken }) => ({ kind: 'card', token: cardToken }) as const)
  const pages = await Promise.all(doors.map(async (door) => (await phoneBrowser().show(door)).body))
  const alike = pages.map((page) => page.replace(/seat \d/gi, 'seat'))
  expect(new Set(alike).size).toBe(1)
})

test('two cups that are answered together tell no more: codes, places of one’s own order, and one’s own answer', async () => {
  const cafe = await cafeForTest()
  here.world = cafe.world
  const panelId = await openChoicePanel(cafe)
  const heard: Heard[] = []
  const held = await cafe.db.panel.findUniqueOrThrow({
    where: { id: panelId },
    include: { cups: true, attributes: true, seats: { include: { servings: true, sets: true } } },
  })
  const door = { kind: 'join', token: held.joinToken } as const
  const ana = phoneBrowser(heard)
  const asked = (await ana.show(door)).body
  expect(asked).toContain('which one you like better')
  expect(asked).not.toContain('how you like each')
  await ana.enter(door, WILLING)
  await ana.taste()
  const state = (await ana.state()).json()
  expect(Object.keys((state.sets as object[])[0] ?? {}).sort()).toEqual([
    'answers',
    'locked',
    'number',
    'positions',
    'skipped',
  ])
  const message = { sitting: state.sitting, set: 1, revision: 1, key: 'a-key-of-its-own' }
  const answer = { ...message, act: 'answer', attribute: 0, answer: [2] }
  for (const _ of [1, 2]) expect((await ana.set(answer)).status).toBe(200)
  expect((await ana.set({ ...answer, answer: [9] })).status).toBe(409)
  expect((await ana.set({ ...answer, answer: ['A'] })).status).toBe(422)
  expect((await ana.set({ ...answer, set: 2 })).status).toBe(409)
  await ana.taste()
  expect((await ana.set({ ...message, act: 'lock' })).status).toBe(200)
  expect((await ana.state()).json()).toMatchObject({ sets: [{ locked: true, answers: [null] }] })
  const ben = phoneBrowser(heard)
  await ben.show(door)
  await ben.enter(door, { ...WILLING, name: 'Ben' })
  const turn = (await ben.state()).json()
  expect((await ben.set({ ...answer, sitting: turn.sitting, act: 'skip', reason: 'rather-not' })).status).toBe(422)
  const skip = { ...message, sitting: turn.sitting, act: 'skip', reason: 'rather-not' }
  expect((await ben.set(skip)).status).toBe(200)
  await cafe.db.panel.update({ where: { id: panelId }, data: { stage: 'closed' } })
  expect((await ben.set({ ...skip, act: 'lock' })).status).toBe(422)
  await ana.taste()
  const secrets = [
    ...[cafe.owner.cafeId, panelId, held.recipeId, held.title, String(held.orderSeed), 'Velvetine'],
    ...held.cups.flatMap(({ id, trialId }) => [id, trialId]),
    ...held.attributes.map(({ id }) => id),
    ...held.seats.flatMap(({ id, servings, sets }) => [id, ...[...servings, ...sets].map((one) => one.id)]),
  ]
  expect(betrayals(heard, secrets)).toEqual([])
  expect(betrayals(heard, [held.seats[0]?.servings[0]?.code ?? '']).length).toBeGreaterThan(0)
  await cafe.close()
})
