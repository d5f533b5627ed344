import { afterEach, beforeEach, expect, test } from 'vitest'
import { addSeats } from '@/lib/tasks/pour/add-seats'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readListHead } from '@/lib/tasks/pour/read-pouring-list'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

async function planned(more: Parameters<TestCafe['plan']>[0] = {}): Promise<string> {
  const answer = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan(more))
  if (!answer.ok) throw new Error(answer.reason)
  return answer.value
}

const seatsOf = (panelId: string) =>
  cafe.db.seat.findMany({
    where: { panelId },
    orderBy: { number: 'asc' },
    include: { servings: { orderBy: { position: 'asc' }, include: { cup: true } } },
  })

test('opening deals every seat every cup once, each serving under a code of its own', async () => {
  const id = await planned()
  expect(await openPanel(cafe.world, cafe.owner, id)).toEqual({ ok: true, value: null })
  const panel = await cafe.db.panel.findUniqueOrThrow({ where: { id }, include: { cups: true } })
  expect(panel).toMatchObject({ stage: 'open', openedById: cafe.owner.userId })
  expect(panel.orderSeed).not.toBeNull()
  expect(new Set(panel.cups.map((cup) => cup.jugLetter)).size).toBe(3)
  expect(panel.cups.map((cup) => cup.design).toSorted()).toEqual([1, 2, 3])

  const seats = await seatsOf(id)
  expect(seats.map((seat) => seat.number)).toEqual([1, 2, 3, 4, 5, 6])
  expect(new Set(seats.map((seat) => seat.cardToken)).size).toBe(6)
  for (const seat of seats) {
    expect(seat.servings.map((serving) => serving.position)).toEqual([1, 2, 3])
    expect(new Set(seat.servings.map((serving) => serving.cupId)).size).toBe(3)
    expect(seat.servings.every((serving) => /^\d{3}$/.test(serving.code))).toBe(true)
  }
  const codes = seats.flatMap((seat) => seat.servings.map((serving) => serving.code))
  expect(new Set(codes).size).toBe(codes.length)
  // Six seats of three cups are one Williams design: each cup twice at each place (Williams 1949).
  for (const place of [0, 1, 2]) {
    const at = seats.map((seat) => seat.servings[place]?.cup.design)
    for (const design of [1, 2, 3]) expect(at.filter((one) => one === design)).toHaveLength(2)
  }
})

test('which trial is which number is dealt by the world’s chance, not by the place in the plan', async () => {
  const seen = new Set<string>()
  for (let time = 0; time < 12; time += 1) {
    const id = await planned()
    await openPanel(cafe.world, cafe.owner, id)
    const cups = await cafe.db.cup.findMany({ where: { panelId: id }, orderBy: { place: 'asc' } })
    seen.add(cups.map((cup) => cup.design).join(''))
  }
  // Twelve deals of six equally likely orders all agree with chance 6⁻¹¹.
  expect(seen.size).toBeGreaterThan(1)
})

test('opening freezes trials and every batch down their preparations', async () => {
  const [a = '', , , d = ''] = cafe.trialIds
  await cafe.db.ingredient.update({ where: { id: cafe.unreadId }, data: { labelReadAt: new Date(0) } })
  const id = await planned({ cups: [a, d] })
  await openPanel(cafe.world, cafe.owner, id)
  const frozen = await cafe.db.trial.findMany({ where: { frozenAt: { not: null } }, select: { id: true } })
  expect(frozen.map((trial) => trial.id).toSorted()).toEqual([a, d].toSorted())
  const batches = await cafe.db.preparationBatch.findMany({ where: { frozenAt: { not: null } } })
  expect(batches.map((batch) => batch.id).toSorted()).toEqual(cafe.batchIds.toSorted())

  const before = await cafe.db.trial.findUniqueOrThrow({ where: { id: a } })
  cafe.pass(60_000)
  const again = await planned({ cups: [a, d] })
  await openPanel(cafe.world, cafe.owner, again)
  expect((await cafe.db.trial.findUniqueOrThrow({ where: { id: a } })).frozenAt).toEqual(before.frozenAt)
})

test('a label nobody read, two preparations down, keeps the panel shut and is named', async () => {
  const [a = '', , , d = ''] = cafe.trialIds
  const id = await planned({ cups: [a, d] })
  expect(await openPanel(cafe.world, cafe.owner, id)).toEqual({
    ok: false,
    reason: 'labels-unread',
    detail: { names: 'Quillberry paste' },
  })
  const panel = await readPanel(cafe.world, cafe.owner, id)
  expect(panel?.stage).toBe('draft')
  expect(panel?.cups.map((cup) => cup.unread.map((one) => one.id))).toEqual([[], [cafe.unreadId]])
  expect(await cafe.db.seat.count()).toBe(0)
  expect(await cafe.db.trial.count({ where: { frozenAt: { not: null } } })).toBe(0)
  expect(await cafe.db.auditRow.count({ where: { act: 'panel-opened' } })).toBe(0)
})

test('an archived trial and an empty one are refused by name', async () => {
  const id = await planned()
  const [a = '', b = ''] = cafe.trialIds
  await cafe.db.trialLine.deleteMany({ where: { trialId: b } })
  expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({
    reason: 'nothing-in-cup',
    detail: { name: 'Velvetine 2' },
  })
  await cafe.db.trial.update({ where: { id: a }, data: { archivedAt: new Date(0) } })
  expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({
    reason: 'trial-archived',
    detail: { name: 'Velvetine 1' },
  })
})

test('of two who open at once one does, and one set of seats is dealt', async () => {
  const id = await planned()
  const answers = await Promise.all([
    openPanel(cafe.world, cafe.owner, id),
    openPanel(cafe.world, cafe.secondOwner, id),
  ])
  expect(answers.filter((answer) => answer.ok)).toHaveLength(1)
  expect(answers.find((answer) => !answer.ok)).toMatchObject({ reason: 'not-a-draft' })
  expect(await cafe.db.seat.count({ where: { panelId: id } })).toBe(6)
  expect(await cafe.db.auditRow.count({ where: { act: 'panel-opened' } })).toBe(1)
})

test('a hidden duplicate has a jug and a serving of its own, and stands beside its twin as often as beside any other', async () => {
  const [a = '', b = '', c = ''] = cafe.trialIds
  const id = await planned({ cups: [a, b, c], duplicate: b, seatCount: 12 })
  expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({ ok: true })
  const cups = await cafe.db.cup.findMany({ where: { panelId: id } })
  expect(new Set(cups.map((cup) => cup.jugLetter)).size).toBe(4)
  expect(cups.filter((cup) => cup.trialId === b)).toHaveLength(2)
  let twins = 0
  for (const seat of await seatsOf(id)) {
    const trials = seat.servings.map((serving) => serving.cup.trialId)
    expect(trials).toHaveLength(4)
    twins += trials.filter((trial, at) => trial === trials[at + 1]).length
  }
  // Twelve trays of four have 36 neighbours, six pairs of jugs: six each.
  expect(twins).toBe(6)
})

test('two trials and a hidden duplicate, as the first version could plan them: not opened, and the plan says why', async () => {
  const [a = '', b = ''] = cafe.trialIds
  const id = await planned({ cups: [a, b] })
  const cup = { cafeId: cafe.owner.cafeId, panelId: id, trialId: a, place: 2, isDuplicate: true }
  await cafe.db.cup.create({ data: { ...cup, id: cafe.world.id() } })
  expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({ ok: false, reason: 'duplicate-of-two' })
  expect((await readPanel(cafe.world, cafe.owner, id))?.problems).toEqual(['duplicate-of-two'])
})

test('two trials and a hidden duplicate, open since the first version, still take seats', async () => {
  const [a = '', b = '', c = ''] = cafe.trialIds
  const id = await planned({ cups: [a, b, c], seatCount: 3 })
  await openPanel(cafe.world, cafe.owner, id)
  await cafe.db.cup.updateMany({ where: { panelId: id, design: 3 }, data: { isDuplicate: true, trialId: a } })
  await cafe.db.cup.updateMany({ where: { panelId: id, design: 1 }, data: { trialId: a } })
  await cafe.db.cup.updateMany({ where: { panelId: id, design: 2 }, data: { trialId: b } })
  expect(await addSeats(cafe.world, cafe.owner, id, 5)).toEqual({ ok: true, value: { seats: 8 } })
  expect((await seatsOf(id)).map((seat) => seat.servings.length)).toEqual([3, 3, 3, 3, 3, 3, 3, 3])
})

test('added seats go on where the others stopped, with codes not used before', async () => {
  const id = await planned({ seatCount: 3 })
  await openPanel(cafe.world, cafe.owner, id)
  const before = await seatsOf(id)
  expect(await addSeats(cafe.world, cafe.owner, id, 3)).toEqual({ ok: true, value: { seats: 6 } })
  const after = await seatsOf(id)
  expect(after.slice(0, 3)).toEqual(before)
  expect(after.map((seat) => seat.number)).toEqual([1, 2, 3, 4, 5, 6])
  expect(after.map((seat) => seat.addedAt !== null)).toEqual([false, false, false, true, true, true])
  const codes = after.flatMap((seat) => seat.servings.map((serving) => serving.code))
  expect(new Set(codes).size).toBe(codes.length)
  for (const place of [0, 1, 2]) {
    const at = after.map((seat) => seat.servings[place]?.cup.design)
    for (const design of [1, 2, 3]) expect(at.filter((one) => one === design)).toHaveLength(2)
  }
  expect((await cafe.db.panel.findUniqueOrThrow({ where: { id } })).seatCount).toBe(6)
  expect(await addSeats(cafe.world, cafe.owner, id, 195)).toMatchObject({ reason: 'too-many-seats' })
  expect(await addSeats(cafe.world, cafe.stranger, id, 1)).toMatchObject({ reason: 'not-open' })
})

test('fewer cups each: every tray holds as many as planned, every cup as often, and added seats go on so', async () => {
  await cafe.db.ingredient.update({ where: { id: cafe.unreadId }, data: { labelReadAt: new Date(0) } })
  const id = await planned({ cups: [...cafe.trialIds], cupsPerTaster: 2, seatCount: 6 })
  expect(await openPanel(cafe.world, cafe.owner, id)).toMatchObject({ ok: true })
  const servedOf = async () => {
    const seats = await seatsOf(id)
    expect(seats.every((seat) => seat.servings.length === 2)).toBe(true)
    expect(seats.every((seat) => new Set(seat.servings.map((serving) => serving.cupId)).size === 2)).toBe(true)
    const cups = seats.flatMap((seat) => seat.servings.map((serving) => serving.cupId))
    return [...new Set(cups)].map((cup) => cups.filter((one) => one === cup).length)
  }
  // 6 seats × 2 cups are 12 servings of 4 cups: 3 each. All six pairs once: a balanced block (Cochran and Cox, plan 11.1).
  expect(await servedOf()).toEqual([3, 3, 3, 3])
  const pairs = (await seatsOf(id)).map((seat) =>
    seat.servings
      .map((serving) => serving.cupId)
      .toSorted()
      .join(),
  )
  expect(new Set(pairs).size).toBe(6)

  expect(await addSeats(cafe.world, cafe.owner, id, 2)).toMatchObject({ ok: true })
  // 8 × 2 = 16 servings of 4 cups: 4 each.
  expect(await servedOf()).toEqual([4, 4, 4, 4])
})

test('fewer cups each: amounts are for what is poured, and one taster drinks what stands on one tray', async () => {
  await cafe.db.ingredient.update({ where: { id: cafe.unreadId }, data: { labelReadAt: new Date(0) } })
  const id = await planned({ cups: [...cafe.trialIds], cupsPerTaster: 2, seatCount: 6, sampleMl: 40 })
  await openPanel(cafe.world, cafe.owner, id)
  // 3 portions of each cup: 3 · 40 · 1.15 = 138 ml; two cups of 40 ml on a tray; one spare portion for ten begun.
  expect(await readPanel(cafe.world, cafe.owner, id)).toMatchObject({
    portionsPerCup: 3,
    mlPerCup: 138,
    mlPerTaster: 80,
  })
  expect(await readListHead(cafe.world, cafe.owner, id, 'filling')).toMatchObject({
    portions: 3,
    mlPerJug: 138,
    spare: 1,
  })
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id } })
  const door = await readJoin(cafe.world, { kind: 'join', token: joinToken }, null)
  expect(door).toMatchObject({ ok: true, value: { cups: 2 } })
  expect((await readProgress(cafe.world, cafe.owner, id))?.seats[0]?.cups).toBe(2)
})
