/**
 * Every byte a taster's phone receives through a whole sitting is kept and searched: bodies, headers, addresses, cookies, titles.
 * The needles come from the database: names of trials and ingredients, ids, jug letters with their trial, the seed, other
 * seats' codes.
 */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openDatabase, type Db } from '@/lib/db/client'
import { openHouse, scoreCup, setUp, signIn, takeSeat, type House } from '../support/house'

let house: House
let db: Db
let panelId: string
let join: string
const heard: string[] = []

beforeAll(async () => {
  house = await openHouse()
  const desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  await signIn(desk)
  db = openDatabase(house.app.databaseUrl)
  const panel = await db.panel.findFirstOrThrow({ where: { stage: 'open' } })
  panelId = panel.id
  join = `/join/${panel.joinToken}`
})
afterAll(async () => {
  await db.$disconnect()
  await house.close()
})

function listen(page: Page): Promise<void>[] {
  const bodies: Promise<void>[] = []
  page.on('response', (response) => {
    bodies.push(
      (async () => {
        const head = await response.allHeaders()
        const body = await response.text().catch(() => '')
        heard.push(`${response.url()}\n${JSON.stringify(head)}\n${body}`)
      })(),
    )
  })
  return bodies
}

test('a whole sitting tells the phone nothing about which cup is which', async () => {
  const phone = await house.phone()
  const bodies = listen(phone)
  await takeSeat(phone, join, 'Blind')
  heard.push(await phone.title(), await phone.content())
  const seat = /Seat (\d+)/.exec(await phone.content())?.[1]
  await scoreCup(phone, 'like slightly', 'round')
  heard.push(await phone.content())
  await scoreCup(phone, 'dislike slightly')
  heard.push(await phone.title(), await phone.content())
  await Promise.all(bodies)
  expect(heard.length).toBeGreaterThan(8)

  const panel = await db.panel.findUniqueOrThrow({
    where: { id: panelId },
    include: {
      cups: { include: { trial: { include: { lines: true } } } },
      seats: { include: { servings: true } },
      attributes: true,
    },
  })
  const own = panel.seats.find((one) => one.takenAt && one.servings.some((serving) => serving.comment === 'round'))
  expect(String(own?.number)).toBe(seat ?? String(own?.number))
  const ingredients = await db.ingredient.findMany({ select: { id: true, name: true } })
  const preparations = await db.preparation.findMany({ select: { id: true, name: true } })
  expect(preparations.length).toBeGreaterThan(0)
  const others = panel.seats.filter((one) => one.id !== own?.id)
  const needles = [
    panel.id,
    panel.recipeId,
    panel.title,
    panel.question,
    String(panel.orderSeed),
    ...panel.cups.flatMap((cup) => [cup.id, cup.trialId, cup.trial.name]),
    ...panel.cups.flatMap((cup) => cup.trial.lines.map((line) => line.id)),
    ...panel.seats.flatMap((one) => [one.id, one.cardToken, ...one.servings.map((serving) => serving.id)]),
    ...panel.attributes.map((attribute) => attribute.id),
    ...[...ingredients, ...preparations].flatMap((one) => [one.id, one.name]),
  ]
  const all = heard.join('\n')
  expect(needles.filter((needle) => needle.length > 3 && all.includes(needle))).toEqual([])

  // Codes are three digits and turn up in sizes and times; as a word of its own only this seat's may stand in what it is told.
  const told = heard.filter((one) => one.includes('/taste/state') || one.includes('"cups"')).join('\n')
  const ownCodes = new Set(own?.servings.map((serving) => serving.code))
  // what the phone must have been told is in what was heard, so the search is not of nothing
  expect(ownCodes.size).toBe(2)
  expect([...ownCodes].filter((code) => !told.includes(`"${code}"`))).toEqual([])
  const strange = others
    .flatMap((one) => one.servings.map((serving) => serving.code))
    .filter((code) => !ownCodes.has(code))
  expect(strange.filter((code) => told.includes(`"${code}"`))).toEqual([])
  expect(all).not.toMatch(/jugLetter|trialId|cupId|"design"|isHouse|orderSeed/)
})

test('seats get their cups in different orders, and no code twice', async () => {
  const servings = await db.serving.findMany({ where: { panelId }, orderBy: [{ seatId: 'asc' }, { position: 'asc' }] })
  expect(new Set(servings.map((one) => one.code)).size).toBe(servings.length)
  const orders = new Map<string, string>()
  for (const one of servings) orders.set(one.seatId, `${orders.get(one.seatId) ?? ''}${one.cupId}`)
  expect(new Set(orders.values()).size).toBeGreaterThan(1)
})

test('what the house sees of an open panel holds no letter beside a trial, no code beside a letter, no seed', async () => {
  const desk = await house.desk({ expected: /status of 40[49]/ })
  await signIn(desk)
  const seen: string[] = []
  desk.on(
    'response',
    (response) =>
      void response.text().then(
        (body) => seen.push(body),
        () => undefined,
      ),
  )
  for (const path of [
    '',
    '/watch',
    '/progress',
    '/close',
    '/cards',
    '/phones',
    '/paper',
    '/export/scores',
    '/export/panel',
  ]) {
    await desk.goto(`/panels/${panelId}${path}`)
  }
  for (const path of ['/', '/diary', '/panels']) await desk.goto(path)
  const panel = await db.panel.findUniqueOrThrow({
    where: { id: panelId },
    include: { seats: { include: { servings: true } } },
  })
  const all = seen.join('\n')
  expect(all).not.toContain(String(panel.orderSeed))
  const servingIds = panel.seats.flatMap((one) => one.servings.map((serving) => serving.id))
  expect(servingIds.filter((id) => all.includes(id))).toEqual([])
  expect(all).not.toMatch(/jugLetter|orderSeed/)
})

test('a stranger on the network gets to sign in, and no further', async () => {
  const stranger = await house.desk({ expected: /status of 40[1349]/ })
  for (const path of [
    '/',
    '/recipes',
    `/panels/${panelId}`,
    `/panels/${panelId}/serving`,
    `/panels/${panelId}/result`,
    '/team',
    '/store',
  ]) {
    await stranger.goto(path)
    expect(new URL(stranger.url()).pathname).toBe('/sign-in')
  }
  for (const path of ['progress', 'export/scores', 'export/panel']) {
    const answer = await stranger.goto(`/panels/${panelId}/${path}`)
    expect(answer?.status()).toBe(401)
  }
  expect(house.complaints).toEqual([])
})
