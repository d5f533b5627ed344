import { afterEach, beforeEach, expect, test } from 'vitest'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { openList } from '@/lib/tasks/pour/open-list'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readFillingList, readListHead, readServingList, readListOver } from '@/lib/tasks/pour/read-pouring-list'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readResult } from '@/lib/tasks/result/read-result'
import { readSeatCards } from '@/lib/tasks/pour/read-seat-cards'
import { startPhoneTry, readPhoneTry } from '@/lib/tasks/plan/start-phone-try'
import { tickServings } from '@/lib/tasks/pour/tick-servings'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { markSeatLeft } from '@/lib/tasks/pour/mark-seat-left'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
})
afterEach(() => cafe.close())

async function opening(actor: TestCafe['owner'], list: 'filling' | 'serving'): Promise<string> {
  const opened = await openList(cafe.world, actor, panelId, list)
  if (!opened.ok) throw new Error(opened.reason)
  return opened.value
}

/** Everything a page of an open panel might show, as one text. */
async function everyReading(): Promise<string> {
  const readings = await Promise.all([
    readPanel(cafe.world, cafe.owner, panelId),
    readProgress(cafe.world, cafe.owner, panelId),
    readListHead(cafe.world, cafe.owner, panelId, 'filling'),
  ])
  const audit = await cafe.db.auditRow.findMany({ where: { cafeId: cafe.owner.cafeId } })
  return JSON.stringify([readings, audit])
}

test('before opening there is no list to open', async () => {
  expect(await openList(cafe.world, cafe.owner, panelId, 'filling')).toMatchObject({ reason: 'not-open' })
  expect(await readListHead(cafe.world, cafe.owner, panelId, 'filling')).toBeNull()
  expect(await cafe.db.listOpening.count()).toBe(0)
})

test('each opening of a list is recorded, and shows it to who opened it, for that list and for a while', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  const mine = await opening(cafe.pourer, 'serving')
  await opening(cafe.pourer, 'serving')
  expect(await cafe.db.listOpening.count({ where: { userId: cafe.pourer.userId, list: 'serving' } })).toBe(2)
  expect(await cafe.db.auditRow.count({ where: { act: 'list-opened' } })).toBe(2)
  expect(await readServingList(cafe.world, cafe.pourer, panelId, mine)).toHaveLength(6)
  expect(await readServingList(cafe.world, cafe.owner, panelId, mine)).toBeNull()
  expect(await readFillingList(cafe.world, cafe.pourer, panelId, mine)).toBeNull()
  expect(await readServingList(cafe.world, cafe.pourer, panelId, 'guessed')).toBeNull()
  cafe.pass(13 * 60 * 60 * 1000)
  expect(await readServingList(cafe.world, cafe.pourer, panelId, mine)).toBeNull()
})

test('the filling list knows trials and letters, the serving list letters and codes, and neither the other', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  const jugs = await readFillingList(cafe.world, cafe.owner, panelId, await opening(cafe.owner, 'filling'))
  const trays = await readServingList(cafe.world, cafe.pourer, panelId, await opening(cafe.pourer, 'serving'))
  const servings = await cafe.db.serving.findMany({
    where: { panelId },
    include: { cup: { include: { trial: true } } },
  })
  const cups = await cafe.db.cup.findMany({ where: { panelId }, include: { trial: true } })
  expect(jugs?.map((jug) => [jug.letter, jug.trialName])).toEqual(
    cups.map((cup) => [cup.jugLetter, cup.trial.name]).toSorted(),
  )
  // as a word of its own: an id may hold any three digits
  for (const { code } of servings) expect(JSON.stringify(jugs)).not.toMatch(new RegExp(`(?<![\\w-])${code}(?![\\w-])`))
  for (const { id, name } of cups.map((cup) => cup.trial)) {
    expect(JSON.stringify(trays)).not.toContain(name)
    expect(JSON.stringify(trays)).not.toContain(id)
  }
  const shown = trays?.flatMap((tray) => tray.cups.map((cup) => [cup.servingId, cup.letter, cup.code])) ?? []
  expect(shown.toSorted()).toEqual(servings.map((one) => [one.id, one.cup.jugLetter, one.code]).toSorted())
})

test('an address of a list says what became of the panel, and says nothing while the list is there', async () => {
  const over = () => readListOver(cafe.world, cafe.pourer, panelId)
  const { title } = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  expect(await over()).toEqual({ title, became: 'draft' })
  await openPanel(cafe.world, cafe.owner, panelId)
  expect(await over()).toBeNull()
  await closePanel(cafe.world, cafe.owner, panelId)
  expect(await over()).toEqual({ title, became: 'closed' })
  expect(await readListOver(cafe.world, cafe.stranger, panelId)).toBeNull()
})

test('who opened the serving list is named, and who opened the other list is warned before', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  await opening(cafe.owner, 'filling')
  expect((await readListHead(cafe.world, cafe.owner, panelId, 'serving'))?.openedOther).toBe(true)
  expect((await readListHead(cafe.world, cafe.pourer, panelId, 'serving'))?.openedOther).toBe(false)
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.cannotTaste).toEqual([])
  await opening(cafe.owner, 'serving')
  cafe.pass(1000)
  await opening(cafe.pourer, 'serving')
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.cannotTaste).toEqual([
    { name: 'Ottoline', why: 'opened-both-lists' },
    { name: 'Percival', why: 'opened-serving-list' },
  ])
})

test('while it is open neither a page nor the diary tells code, letter, seed or order', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  await opening(cafe.owner, 'filling')
  await opening(cafe.pourer, 'serving')
  const servings = await cafe.db.serving.findMany({ where: { panelId } })
  await tickServings(
    cafe.world,
    cafe.pourer,
    panelId,
    servings.slice(0, 3).map((one) => one.id),
    true,
  )
  await addSeats(cafe.world, cafe.owner, panelId, 2)
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 2)
  await markSeatLeft(cafe.world, cafe.owner, panelId, 3)

  const panel = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId }, include: { cups: true, seats: true } })
  const dealt = await cafe.db.serving.findMany({ where: { panelId } })
  const told = await everyReading()
  const secrets = [
    String(panel.orderSeed),
    panel.joinToken,
    ...panel.seats.map((seat) => seat.cardToken),
    ...panel.cups.map((cup) => cup.id),
    ...dealt.map((serving) => serving.id),
  ]
  for (const secret of secrets) expect(told).not.toContain(secret)
  // What is poured is reckoned from the plan alone, and may happen to be the digits of a code: 120 ml.
  const beside = told.replace(/"(sampleMl|mlPerCup|mlPerJug|mlPerTaster)":\d+/g, '')
  for (const { code } of dealt) expect(beside).not.toMatch(new RegExp(`(?<![\\w-])${code}(?![\\w-])`))
  for (const { jugLetter } of panel.cups) expect(told).not.toContain(`"${jugLetter}"`)
  expect(told).not.toMatch(/design|jugLetter|orderSeed|position|Token/)
})

test('progress counts cups and tells no score and no order', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  const seat = await cafe.db.seat.findFirstOrThrow({
    where: { panelId, number: 1 },
    include: { servings: { orderBy: { position: 'asc' } } },
  })
  const liking = await cafe.db.panelAttribute.findFirstOrThrow({ where: { panelId, position: 0 } })
  const { cafeId } = cafe.owner
  const at = cafe.world.now()
  await cafe.db.seat.update({ where: { id: seat.id }, data: { takenAt: at } })
  const score = { cafeId, attributeId: liking.id, value: 8, revision: 1, source: 'phone', at }
  await cafe.db.score.create({ data: { ...score, id: 's1', key: 'k1', servingId: seat.servings[0]?.id ?? '' } })
  const progress = await readProgress(cafe.world, cafe.pourer, panelId)
  expect(progress?.seats[0]).toMatchObject({ scored: 1, skipped: 0, cups: 3, state: 'tasting' })
  expect(progress?.seats[1]).toMatchObject({ scored: 0, state: 'free' })

  await cafe.db.serving.updateMany({ where: { seatId: seat.id }, data: { lockedAt: at } })
  await cafe.db.serving.update({ where: { id: seat.servings[2]?.id ?? '' }, data: { skippedAt: at } })
  const later = await readProgress(cafe.world, cafe.pourer, panelId)
  expect(later?.seats[0]).toMatchObject({ scored: 1, skipped: 1, state: 'finished' })
  expect(Object.keys(later?.seats[0] ?? {}).toSorted()).toEqual(
    [
      'added',
      'aside',
      'barred',
      'cups',
      'movedAt',
      'name',
      'number',
      'onPaper',
      'poured',
      'repeatOf',
      'scored',
      'skipped',
      'state',
      'unpoured',
    ].toSorted(),
  )
  expect(await readProgress(cafe.world, cafe.stranger, panelId)).toBeNull()
})

test('ticks are kept and taken back, all of a tray or none', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  const [a = '', b = ''] = (await cafe.db.serving.findMany({ where: { panelId }, take: 2 })).map((one) => one.id)
  const poured = async () => cafe.db.serving.count({ where: { panelId, pouredAt: { not: null } } })
  expect(await tickServings(cafe.world, cafe.pourer, panelId, [a, b], true)).toMatchObject({ ok: true })
  expect(await poured()).toBe(2)
  expect(await tickServings(cafe.world, cafe.pourer, panelId, [b], false)).toMatchObject({ ok: true })
  expect(await poured()).toBe(1)
  expect(await tickServings(cafe.world, cafe.pourer, panelId, [b, 'nowhere'], true)).toMatchObject({ ok: false })
  expect(await tickServings(cafe.world, cafe.stranger, panelId, [b], true)).toMatchObject({ ok: false })
  expect(await poured()).toBe(1)
  expect(await cafe.db.auditRow.count({ where: { act: { in: ['servings-poured', 'servings-unticked'] } } })).toBe(2)
})

test('cards exist only while the panel is open, and not for a seat that left', async () => {
  expect(await readSeatCards(cafe.world, cafe.owner, panelId)).toBeNull()
  await openPanel(cafe.world, cafe.owner, panelId)
  await markSeatLeft(cafe.world, cafe.owner, panelId, 4)
  const cards = await readSeatCards(cafe.world, cafe.owner, panelId)
  expect(cards?.cards.map((card) => card.number)).toEqual([1, 2, 3, 5, 6])
  expect(await readSeatCards(cafe.world, cafe.stranger, panelId)).toBeNull()
})

test('a phone try waits for its phone, for this café only', async () => {
  const started = await startPhoneTry(cafe.world, cafe.owner, panelId)
  if (!started.ok) throw new Error(started.reason)
  expect((await readPhoneTry(cafe.world, cafe.owner, panelId, started.value))?.reachedAt).toBeNull()
  await cafe.db.phoneTry.update({ where: { id: started.value }, data: { reachedAt: cafe.world.now() } })
  expect((await readPhoneTry(cafe.world, cafe.owner, panelId, started.value))?.reachedAt).not.toBeNull()
  expect(await readPhoneTry(cafe.world, cafe.stranger, panelId, started.value)).toBeNull()
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.phoneReachedAt).toEqual(cafe.world.now())
  expect(await startPhoneTry(cafe.world, cafe.stranger, panelId)).toMatchObject({ reason: 'not-found' })
})

test('codes of a seat are told for typing in only once it is on paper', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  expect((await readPaperSeat(cafe.world, cafe.owner, panelId, 1))?.cups).toEqual([])
  await putSeatOnPaper(cafe.world, cafe.owner, panelId, 1)
  const seat = await readPaperSeat(cafe.world, cafe.owner, panelId, 1)
  const codes = seat?.cups.map((cup) => cup.code) ?? []
  expect(codes).toHaveLength(3)
  expect(codes).toEqual(codes.toSorted())
})

test('scores on cups that were neither ticked nor confirmed are marked while people watch and on the result, and count', async () => {
  await openPanel(cafe.world, cafe.owner, panelId)
  const seats = await cafe.db.seat.findMany({
    where: { panelId, number: { in: [1, 2] } },
    orderBy: { number: 'asc' },
    include: { servings: { orderBy: { position: 'asc' }, include: { cup: true } } },
  })
  const liking = await cafe.db.panelAttribute.findFirstOrThrow({ where: { panelId, position: 0 } })
  const { cafeId } = cafe.owner
  const at = cafe.world.now()
  await cafe.db.seat.updateMany({ where: { panelId, number: { in: [1, 2] } }, data: { takenAt: at } })
  const servings = seats.flatMap((seat) => seat.servings)
  for (const { id } of servings) {
    const score = { cafeId, attributeId: liking.id, value: 8, revision: 1, source: 'phone', at }
    await cafe.db.score.create({ data: { ...score, id, key: id, servingId: id } })
  }
  const marked = async () =>
    (await readProgress(cafe.world, cafe.pourer, panelId))?.seats.slice(0, 3).map(({ unpoured }) => unpoured)
  // Nobody ticks: nothing can be told, and that is said.
  expect(await marked()).toEqual([null, null, null])
  const [ticked, seen, third] = seats[0]?.servings ?? []
  await tickServings(cafe.world, cafe.pourer, panelId, [ticked?.id ?? ''], true)
  await cafe.db.serving.update({ where: { id: seen?.id }, data: { codeSeenAt: at } })
  expect(await marked()).toEqual([1, 3, 0])
  await tickServings(cafe.world, cafe.pourer, panelId, seats[1]?.servings.map(({ id }) => id) ?? [], true)
  expect(await marked()).toEqual([1, 0, 0])
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  const letter = 'ABC'.charAt(cafe.trialIds.indexOf(third?.cup.trialId ?? ''))
  expect(result?.missing.unpoured).toEqual([{ seat: 1, letter }])
  expect(result?.spread.map(({ counts }) => counts[7])).toEqual([2, 2, 2])
  await cafe.db.serving.updateMany({ data: { pouredAt: null } })
  expect((await readResult(cafe.world, cafe.owner, panelId))?.missing.unpoured).toBeNull()
})
