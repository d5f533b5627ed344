/**
 * Every byte a taster's phone receives through a whole sitting is kept and searched: bodies, headers, addresses, cookies, titles.
 * The needles come from the database: names of trials and ingredients, ids, jug letters with their trial, the seed, other
 * seats' codes.
 */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { openHouse, scoreCup, setUp, shoot, signIn, takeSeat, type House } from '../support/house'

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

/** The seat this phone holds, as its title says. */
async function seatOf(phone: Page): Promise<number> {
  return Number(/Seat (\d+)/.exec(await phone.title())?.[1])
}

/** The seat that went on on another phone, and that phone. */
let moved: number
let second: Page

const gone = { expected: /status of 410|net::ERR_INTERNET_DISCONNECTED/ }

test('scores from paper beside a phone: what the phone said is not shown, and the phone is told what did not arrive', async () => {
  const desk = await house.desk()
  await signIn(desk)
  const phone = await house.phone(gone)
  await takeSeat(phone, join, 'Pia')
  const seat = await seatOf(phone)
  await scoreCup(phone, 'like very much', 'secret of Pia')
  await phone.getByText('Saved').waitFor()

  await desk.goto(`/panels/${panelId}/paper`)
  await phone.context().setOffline(true)
  await phone.getByRole('button', { name: /My cup says/ }).click()
  await phone.getByRole('button', { name: 'dislike slightly', exact: true }).click()
  await desk.getByRole('button', { name: `Seat ${seat}, Pia` }).click()
  await desk.getByText('Answered on the phone').waitFor()
  expect(await desk.content()).not.toContain('secret of Pia')
  expect(await desk.getByRole('combobox').count()).toBe(2) // one cup left: its score, or why none
  await shoot(desk, 'paper-beside-a-phone')

  await phone.context().setOffline(false)
  await phone.getByRole('heading', { name: 'This seat continues on paper' }).waitFor()
  await phone.getByText('1 answer did not arrive').waitFor()
  const codes = await db.serving.findMany({ where: { panelId, seat: { number: seat } }, orderBy: { position: 'asc' } })
  const last = (codes[1]?.code ?? '').split('').join('\u00a0')
  await phone.getByText(`Cup ${last}, Overall liking: dislike slightly (4)`).waitFor()
  await shoot(phone, 'phone-gone-to-paper')
  await phone.reload()
  await phone.getByText(`Cup ${last}, Overall liking: dislike slightly (4)`).waitFor()

  await desk.getByLabel('Overall liking').selectOption('9')
  for (const tick of ['none of it concerns me', 'of my own will', 'I did not pour']) await desk.getByLabel(tick).check()
  await desk.getByRole('button', { name: 'Keep this sheet' }).click()
  await desk.getByText(`Seat ${seat} is typed in`).waitFor()
  await desk.goto(`/panels/${panelId}/paper?seat=${seat}`)
  await desk.getByLabel('Overall liking').selectOption('4')
  await desk.getByRole('button', { name: 'Keep this sheet' }).click()
  await desk.getByText(`Seat ${seat} is typed in`).waitFor()
  const scores = await db.score.findMany({ where: { serving: { panelId, seat: { number: seat } } } })
  expect(scores.map(({ source, value }) => `${source} ${value}`).toSorted()).toEqual(['paper 4', 'phone 8'])
})

test('a page that was opened while a seat still tasted does not put it on paper once it has finished', async () => {
  const desk = await house.desk()
  await signIn(desk)
  const phone = await house.phone()
  await takeSeat(phone, join, 'Quinn')
  const seat = await seatOf(phone)
  await desk.goto(`/panels/${panelId}/paper`)
  await scoreCup(phone, 'like slightly')
  await scoreCup(phone, 'like moderately')
  await phone.getByText('Everything is saved.', { exact: true }).waitFor()
  await desk.getByRole('button', { name: `Seat ${seat}, Quinn` }).click()
  await desk.getByText(`Seat ${seat} did not go to paper`).waitFor()
  expect(await desk.getByText('Answered on the phone').count()).toBe(0)
})

test('a list opened afterwards closes the seat that its reader holds: asked before, told on phone, panel and watch page', async () => {
  const both = await house.phone({ expected: /status of (410|403)/ })
  await takeSeat(both, join, 'Remy')
  const seat = await seatOf(both)
  await scoreCup(both, 'like slightly')
  await both.getByText('Saved').waitFor()
  await signIn(both)
  await both.goto(`/panels/${panelId}/serving`)
  await both.getByText(`You are tasting at seat ${seat}`).waitFor()
  await shoot(both, 'list-door-with-a-seat')
  await both.getByRole('button', { name: `Close seat ${seat} and open the serving list` }).click()
  await both.getByRole('heading', { name: /^Serving list:/ }).waitFor()

  await both.goto('/taste')
  await both.getByRole('heading', { name: 'This seat takes no more answers' }).waitFor()
  await shoot(both, 'phone-knows-too-much')
  const desk = await house.desk()
  await signIn(desk)
  await desk.goto(`/panels/${panelId}/watch`)
  await desk.getByText('its taster has opened the serving list').waitFor()
  await shoot(desk, 'watch-barred')
  await desk.goto(`/panels/${panelId}`)
  await desk.getByText('Mara opened the serving list and cannot taste').waitFor()
  await desk.getByText(`Seat ${seat} takes no more scores for that reason`).waitFor()
  await shoot(desk, 'panel-barred')

  // Signed out, on the same browser, it is no browser to taste on.
  await both.context().clearCookies({ name: /session-token/ })
  await both.goto(join)
  await both.getByText('Somebody else tastes on this phone now').click()
  await both.getByRole('button', { name: 'Pass this phone on' }).click()
  // the boxes of the page that comes, not of the one that goes
  await both.getByLabel('First name or nickname').waitFor()
  for (const box of await both.getByRole('checkbox').all()) await box.check()
  await both.getByLabel('First name or nickname').fill('Remy')
  await both.getByRole('button', { name: 'Take a seat' }).click()
  await both.getByRole('heading', { name: 'You know too much to taste' }).waitFor()
  await shoot(both, 'door-knows-too-much')
})

test('a seat card on another phone brings no comment along, and says on the watching page that the seat has moved', async () => {
  const first = await house.phone(gone)
  await takeSeat(first, join, 'Moss')
  moved = await seatOf(first)
  await first.getByRole('button', { name: /My cup says/ }).click()
  await first.getByRole('button', { name: 'like slightly', exact: true }).click()
  await first.getByText('Saved').waitFor()
  const where = { panelId, seat: { number: moved }, position: 1 }
  await db.serving.updateMany({ where, data: { comment: 'secret of Moss', commentRevision: 1, commentAt: new Date() } })
  const seat = await db.seat.findFirstOrThrow({ where: { panelId, number: moved } })

  second = await house.phone({ expected: /status of 410/ })
  const bodies: string[] = []
  second.on(
    'response',
    (response) =>
      void response.text().then(
        (body) => bodies.push(body),
        () => undefined,
      ),
  )
  await second.goto(`/seat/${seat.cardToken}`)
  await second.getByRole('button', { name: `Go on with seat ${moved}` }).click()
  // its one question is answered, so the phone is asked for words
  await second.getByText(/written about this cup on the phone before is kept/).waitFor()
  expect(await second.getByRole('textbox').inputValue()).toBe('')
  await shoot(second, 'phone-comment-kept')
  await second.getByRole('button', { name: /^Next/ }).click()
  await second.getByText('Take the cup that says').waitFor()
  await second.getByText('Saved').waitFor()
  expect(bodies.join()).not.toContain('secret of Moss')
  expect((await db.serving.findFirstOrThrow({ where })).comment).toBe('secret of Moss')

  const desk = await house.desk()
  await signIn(desk)
  await desk.goto(`/panels/${panelId}/watch`)
  await desk
    .getByRole('row', { name: new RegExp(`^Seat ${moved} `) })
    .getByText('went on on another phone')
    .waitFor()
  await shoot(desk, 'watch-moved')
})

test('a seat that cannot be trusted is set aside for a reason: its phone is thanked, it can come back, and nobody else gets it', async () => {
  const desk = await house.desk()
  await signIn(desk)
  await desk.goto(`/panels/${panelId}/watch?seat=${moved}`)
  await desk.getByRole('button', { name: 'Set it aside' }).click()
  await desk.getByText('Say in words why it is set aside.').waitFor()
  const setAside = async () => {
    await desk.goto(`/panels/${panelId}/watch?seat=${moved}`)
    await desk.getByLabel('Why').fill('Went on on a phone nobody knows')
    await desk.getByRole('button', { name: 'Set it aside' }).click()
    await desk.getByText('“Went on on a phone nobody knows”').waitFor()
  }
  await setAside()
  await second.getByRole('button', { name: /My cup says/ }).click()
  await second.getByRole('heading', { name: 'Thank you, nothing more is asked of you here' }).waitFor()
  await shoot(second, 'phone-set-aside')
  await shoot(desk, 'watch-set-aside')

  await desk.getByRole('button', { name: `Take seat ${moved} back in` }).click()
  await desk.getByText('“Went on on a phone nobody knows”').waitFor({ state: 'detached' })
  await second.reload()
  await second.getByRole('button', { name: 'like moderately', exact: true }).click()
  await second.getByText('Saved').waitFor()
  await setAside()
  await desk.goto(`/panels/${panelId}/close`)
  await desk.getByText('What the panel claims is read without them').waitFor()
  await shoot(desk, 'close-set-aside')
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

test('after closing the result says what was corrected and whose seat was closed', async () => {
  const desk = await house.desk()
  await signIn(desk)
  await desk.goto(`/panels/${panelId}/close`)
  await desk.getByRole('button', { name: 'Close for good and unblind' }).click()
  await desk.waitForURL(new RegExp(`/panels/${panelId}$`))
  await desk.goto(`/panels/${panelId}/result`)
  await desk.getByText('Came to know too much').waitFor()
  await desk.getByText('1 cup scored before that counts').waitFor()
  await desk.getByText('What stood, what stands, who and when').click()
  const row = desk.getByRole('row').filter({ hasText: 'Mara' }).filter({ hasText: 'Overall liking' })
  expect((await row.getByRole('cell').allInnerTexts()).slice(1, 5)).toEqual(['Overall liking', '9', '4', 'Mara'])
  await shoot(desk, 'result-corrected')

  await desk.getByText(`Seat ${moved}, set aside before closing, when nobody could read a score, by Mara`).waitFor()
  await desk.getByText('With every seat:').waitFor()
  const sentence = await desk.getByRole('heading', { level: 1 }).innerText()
  await desk.getByText('Set a seat aside', { exact: true }).click()
  await desk.getByLabel('Seat to set aside').fill('1')
  await desk.getByLabel('Why').fill('Talked with seat 2 over the cups')
  await desk.getByRole('button', { name: 'Set it aside' }).click()
  await desk.getByText('Seat 1, set aside after the scores were read, by Mara').waitFor()
  await desk.getByText(/still counts seats that were set aside after the scores were read/).waitFor()
  expect(await desk.getByRole('heading', { level: 1 }).innerText()).toBe(sentence)
  expect(await desk.getByRole('button', { name: /Take seat \d+ back in/ }).allInnerTexts()).toEqual([
    'Take seat 1 back in',
  ])
  await shoot(desk, 'result-set-aside')
  await desk.goto('/diary')
  await desk
    .getByText(/^tasters: \d+ steps \(/)
    .first()
    .click()
  await shoot(desk, 'diary')
  expect(house.complaints).toEqual([])
})
